import { describe, expect, it } from 'vitest';
import type { JudgeCase, SaltSample } from '../../app/limits/judge-case.ts';
import { judgeSet } from '../../app/limits/judge-set.ts';
import type { ScheduledProcess, WindowItem } from '../../app/limits/scheduled-process.ts';
import { minuteWords } from '../../app/limits/words.ts';
import { batchOf, needSet } from '../support/judge-cases.ts';
import { limitBook } from '../support/judged-log.ts';

const at = (day: string) => Date.parse(`${day}T12:00:00Z`);
const WINDOW: WindowItem[] = [
  { what: 'recipe version', limit: 'wet 3b', side: 'exactly', actual: 'wet 3b' },
  { what: 'brine to fish', limit: '1.0', side: 'at-least', actual: '1' },
  { what: 'thickness in mm', limit: '25', side: 'at-most', actual: '25' },
  { what: 'soak in min', limit: '600', side: 'at-least', actual: '600.0' },
  { what: 'yield in per cent', limit: '80.1', side: 'at-most', actual: '80.1' },
];
const process: ScheduledProcess = {
  name: 'Scheduled process 7', window: WINDOW, letter: { authority: 'Northwater Process Authority', number: 'L-7', fileId: 'file-1' },
  verifiedFromMs: at('2026-01-10'), verifiedUntilMs: at('2026-12-31'),
};

function salt(scheduledProcess: ScheduledProcess, saltSamples: SaltSample[] = [], more: Partial<JudgeCase> = {}) {
  const batch = batchOf([], { pack: 'vacuum', store: 'refrigerated', sealedMs: at('2026-06-02'), saltSamples, scheduledProcess, ...more });
  const judged: JudgeCase = { ...batch, records: { ...batch.records, process: { inMs: at('2026-06-01'), outMs: at('2026-06-01') + 1, open: false } } };
  const unit = judgeSet(needSet('us-fda-sale'), more.records === undefined ? judged : batch, limitBook, { words: minuteWords('F'), paper: false }).units.find((one) => one.question === 'salt' && one.verdict !== 'does-not-apply');
  const route = unit?.checks.find((check) => check.checkId === 'SCHEDULED');
  return { verdict: unit?.verdict, reason: route?.reason ?? '', route: route?.verdict };
}

describe('a scheduled process', () => {
  it('stands for the salt minimum inside its window, to the last digit', () => {
    expect(salt(process)).toMatchObject({ verdict: 'meets', reason: 'Inside Scheduled process 7 (Northwater Process Authority, L-7), with a laboratory verification current until 31 Dec 2026.' });
  });
  it('proves nothing outside, and names every item outside', () => {
    const outside = salt({ ...process, window: WINDOW.map((item) => (item.what === 'thickness in mm' ? { ...item, actual: '25.01' } : item.what === 'soak in min' ? { ...item, actual: undefined } : item)) });
    expect(outside).toMatchObject({ verdict: 'not-proven', reason: 'Outside Scheduled process 7: thickness in mm 25.01, at most 25 asked; soak in min not recorded, at least 600 asked.' });
    expect(salt({ ...process, window: [{ what: 'recipe version', limit: '3', side: 'exactly', actual: '4' }] }).verdict).toBe('not-proven');
    expect(salt({ ...process, window: [{ what: 'recipe version', limit: '3', side: 'exactly', actual: '3.0' }] }).verdict).toBe('meets');
    expect(salt({ ...process, window: [{ what: 'soak in min', limit: '600', side: 'at-least', actual: 'overnight' }] }).verdict).toBe('not-proven');
    expect(salt({ ...process, window: [{ what: 'recipe version', limit: 'wet 3b', side: 'exactly', actual: 'wet 3c' }] }).verdict).toBe('not-proven');
    expect(salt({ ...process, window: [] }).verdict).toBe('not-proven');
  });
  it('needs its letter on file', () => {
    expect(salt({ ...process, letter: undefined }).reason).toContain('letter it rests on is not on file');
    expect(salt({ ...process, letter: { authority: 'Northwater', number: 'L-7', fileId: '' } }).verdict).toBe('not-proven');
  });
  it('needs a verification that was current from the start of the batch to its sealing', () => {
    expect(salt({ ...process, verifiedUntilMs: at('2026-06-02') }).verdict).toBe('meets');
    expect(salt({ ...process, verifiedUntilMs: at('2026-06-02') - 1 }).reason).toContain('current only until 2 Jun 2026');
    expect(salt({ ...process, verifiedFromMs: at('2026-06-01') + 1 }).reason).toContain('after the batch was begun');
    expect(salt({ ...process, verifiedFromMs: at('2026-06-01') }).verdict).toBe('meets');
    expect(salt({ ...process, verifiedUntilMs: undefined }).verdict).toBe('not-proven');
    expect(salt(process, [], { records: batchOf([]).records }).verdict).toBe('not-proven');
  });
  it('is contradicted by a sample of the batch itself that misses', () => {
    expect(salt(process, [{ saltPercent: '2.2', moisturePercent: '65' }])).toMatchObject({ verdict: 'not-proven', route: 'not-proven' });
    expect(salt(process, [{ saltPercent: '3', moisturePercent: '62' }]).verdict).toBe('meets');
  });
});
