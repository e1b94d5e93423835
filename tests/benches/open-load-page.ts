/** What runs inside the browser's pages; each function is sent there by its text and knows nothing of this file. */
import type UPlot from 'uplot';
import type { Output } from '../../app/contract/contract.ts';

declare global {
  interface Window {
    uPlot: typeof UPlot;
  }
}

/** Asks for a load once. @returns how long it took, in ms */
export async function warmLoad(loadId: string): Promise<number> {
  const startMs = performance.now();
  const answer = await fetch('/request', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ name: 'load.get', input: { loadId }, commandId: crypto.randomUUID(), personId: null }) });
  await answer.json();
  return performance.now() - startMs;
}

/** Goes to a load's page from another place. @returns ms until its lines were painted */
export async function openLoadPage({ loadId, probes }: { readonly loadId: string; readonly probes: number }): Promise<number> {
  const lines = (): number => document.querySelectorAll('.series-paths path[d^="M"]').length;
  const frame = (): Promise<number> => new Promise((resolve) => { requestAnimationFrame(resolve); });
  window.location.hash = '#/fish-in';
  while (lines() > 0) await frame();
  await frame();
  await frame();
  const startMs = performance.now();
  await new Promise<void>((resolve) => {
    const watch = new MutationObserver(() => {
      if (lines() < probes) return;
      watch.disconnect();
      resolve();
    });
    watch.observe(document.body, { childList: true, subtree: true, attributes: true, attributeFilter: ['d'] });
    window.location.hash = `#/smokehouse/${encodeURIComponent(loadId)}`;
  });
  await frame();
  await frame();
  return performance.now() - startMs;
}

/** Waits on a page that was just opened at a load's address. @returns ms from its first request until the lines were painted */
export async function waitForLoadPage({ probes }: { readonly probes: number }): Promise<number> {
  const frame = (): Promise<number> => new Promise((resolve) => { requestAnimationFrame(resolve); });
  while (document.querySelectorAll('.series-paths path[d^="M"]').length < probes) await frame();
  await frame();
  await frame();
  const paintedMs = performance.now();
  const [first] = performance.getEntriesByType('resource').filter(({ name }) => name.endsWith('/request')).map(({ startTime }) => startTime);
  if (first === undefined) throw new Error('The page asked for nothing.');
  return paintedMs - first;
}

/** Asks for a load and draws its series with uPlot, as large as the program's chart. @returns ms until they were painted */
export async function drawByPlot({ loadId, probes }: { readonly loadId: string; readonly probes: number }): Promise<number> {
  const frame = (): Promise<number> => new Promise((resolve) => { requestAnimationFrame(resolve); });
  document.querySelector('.bench-plot')?.remove();
  const box = document.createElement('div');
  box.className = 'bench-plot';
  document.body.prepend(box);
  await frame();
  await frame();
  const startMs = performance.now();
  const answer = await fetch('/request', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ name: 'load.get', input: { loadId }, commandId: crypto.randomUUID(), personId: null }) });
  const envelope = (await answer.json()) as { readonly ok: true; readonly value: Output<'load.get'> };
  const bytesOf = (base64: string): ArrayBuffer => Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)).buffer;
  const tables = envelope.value.series.map(({ series }): UPlot.AlignedData => [
    new Float64Array(bytesOf(series.atMs)).map((atMs) => atMs / 1000),
    Float64Array.from(new Int32Array(bytesOf(series.ticks)), (ticks) => ticks / 5000 + 32),
  ]);
  if (tables.length !== probes) throw new Error(`The answer has ${tables.length} series.`);
  const colours = ['#0072b2', '#d55e00', '#009e73', '#cc79a7', '#e69f00', '#56b4e9', '#7a6a00', '#555555'];
  await new Promise<void>((resolve) => {
    const plot = new window.uPlot(
      { width: 860, height: 480, series: [{}, ...tables.map((_, index) => ({ label: `Probe ${index + 1}`, stroke: colours[index % colours.length] ?? 'black', width: 2, spanGaps: true }))], hooks: { draw: [() => resolve()] } },
      window.uPlot.join(tables), box,
    );
    if (plot.series.length !== probes + 1) throw new Error('uPlot has other series.');
  });
  await frame();
  await frame();
  return performance.now() - startMs;
}
