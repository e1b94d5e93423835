import { expect } from '@playwright/test';
import type { WindowBridge } from '../../app/contract/bridge-types.ts';
import { test } from '../support/window-program.ts';

test.use({ startName: 'keep-awake' });

test('the computer is kept awake when a page asks for it, once, and let go again', async ({ program }) => {
  const replies = await program.page.evaluate(async () => {
    const bridge = Reflect.get(window, 'alderbook') as WindowBridge;
    const ask = (input: unknown) => bridge.request('front.keepAwake', input as { awake: boolean });
    return [await ask({ awake: true }), await ask({ awake: true }), await ask({ awake: false }), await ask({ awake: 'yes' }), await ask({ awake: true, screen: true })];
  });
  expect(replies.slice(0, 3)).toEqual([true, true, false].map((awake) => ({ ok: true, value: { awake } })));
  expect(replies.slice(3)).toMatchObject([{ ok: false, error: { code: 'INVALID_INPUT' } }, { ok: false, error: { code: 'INVALID_INPUT' } }]);
});
