import { describe, expect, it } from 'vitest';
import { findFaults, RULES } from './find-faults.ts';
import { file } from './planted.ts';
import { PLANTED_CODE } from './planted-code.ts';
import { PLANTED_IMPORTS } from './planted-imports.ts';
import { findMissingAtTop } from './tree-rules.ts';

const PLANTED = [...PLANTED_IMPORTS, ...PLANTED_CODE];

function ruleFaults(rule: string, files: Parameters<typeof findFaults>[0]) {
  return findFaults(files).filter((fault) => fault.rule === rule);
}

describe('the architecture rules', () => {
  it.each(PLANTED)('$rule finds $what and leaves its clean twin alone', ({ rule, faulty, says, clean }) => {
    const found = ruleFaults(rule, faulty);
    expect(found.map((fault) => fault.message).join('\n')).toContain(says);
    expect(faulty.map((each) => each.path)).toContain(found[0]?.path);
    expect(ruleFaults(rule, clean)).toEqual([]);
  });

  it('have a planted fault each', () => {
    expect(RULES.map((rule) => rule.name).filter((name) => !PLANTED.some((planted) => planted.rule === name))).toEqual([]);
  });

  it('name the line of a fault', () => {
    expect(ruleFaults('pure-app', [file('app/limits/a.ts', '\n\nexport const at = Date.now();')])[0]?.line).toBe(3);
  });

  it('miss what the top level lacks', () => {
    expect(findMissingAtTop([file('package.json', '{}'), file('app/limits/a.ts', '')])).toContain('README.md');
    expect(findMissingAtTop([file('package.json', '{}'), file('app/limits/a.ts', '')])).not.toContain('app');
  });
});
