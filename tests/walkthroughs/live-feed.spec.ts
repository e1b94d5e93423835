import { AxeBuilder } from '@axe-core/playwright';
import { expect } from '@playwright/test';
import type { Locator, Page } from '@playwright/test';
import { words } from '../../renderer/words/words.ts';
import { startSender, type Sender } from '../support/feeds/sender.ts';
import { guardPage } from '../support/page-guard.ts';
import { test as base } from '../support/walk/demo-program.ts';
import { brineABatch } from '../support/walk/brine-batch.ts';

const { feeds, smokehouse, chart } = words;
const { form } = feeds;

const test = base.extend<{ device: Sender; broker: Sender }>({
  device: async ({ browserName: _any }, lend) => {
    const device = await startSender('modbus-device.ts');
    await lend(device);
    await device.stop();
  },
  broker: async ({ browserName: _any }, lend) => {
    const broker = await startSender('mqtt-broker.ts');
    await lend(broker);
    await broker.stop();
  },
});

/** The fields of one thermometer in the form. */
function thermometer(page: Page, number: number): Locator {
  return page.getByRole('group', { name: form.one(number), exact: true });
}

async function pick(within: Locator, label: string, choice: string): Promise<void> {
  await within.getByLabel(label, { exact: true }).selectOption({ label: choice });
}

async function openForm(page: Page, name: string, kind: string, host: string, port: number): Promise<void> {
  await page.getByRole('button', { name: feeds.add }).click();
  await page.getByLabel(form.name, { exact: true }).fill(name);
  await page.locator('label', { has: page.getByRole('radio', { name: kind, exact: true }) }).first().click();
  await page.getByLabel(host, { exact: true }).fill('127.0.0.1');
  await page.getByLabel(form.port, { exact: true }).fill(String(port));
}

/** A box that speaks Modbus: two probes in tenths of a degree Fahrenheit. */
async function setUpDevice(page: Page, device: Sender): Promise<void> {
  await openForm(page, 'Smokehouse box', feeds.kinds.modbus, form.host, device.port);
  await pick(thermometer(page, 1), form.instrument, 'Stone probe 1');
  await thermometer(page, 1).getByLabel(form.register, { exact: true }).fill('40001');
  await page.getByRole('button', { name: form.addOne }).click();
  await pick(thermometer(page, 2), form.instrument, 'Stone chamber probe');
  await thermometer(page, 2).getByLabel(form.register, { exact: true }).fill('30012');
  await page.getByRole('button', { name: form.save }).click();
  await expect(page.getByText('Register 30012 is an input register by its number.').first()).toBeVisible();
  await pick(thermometer(page, 2), form.table, form.tables.input);
  await page.getByRole('button', { name: form.tryIt }).click();
  const tried = page.getByRole('status').filter({ hasText: form.tried });
  await expect(tried.getByText('45.5 °F')).toBeVisible();
  await expect(tried.getByText('181.0 °F')).toBeVisible();
  await expectAccessible(page);
  await page.getByRole('button', { name: form.save }).click();
}

/** A sender of MQTT: one probe as JSON. */
async function setUpBroker(page: Page, broker: Sender): Promise<void> {
  await openForm(page, 'Wireless probe', feeds.kinds.mqtt, form.brokerHost, broker.port);
  await page.getByLabel(form.topicFilter, { exact: true }).fill('lodge/#');
  await pick(thermometer(page, 1), form.instrument, 'Stone probe 2');
  await thermometer(page, 1).getByLabel(form.topic, { exact: true }).fill('lodge/smoker/2');
  await thermometer(page, 1).getByLabel(form.path, { exact: true }).fill('probe.t');
  await page.getByRole('button', { name: form.save }).click();
}

async function expectAccessible(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target.join(' ')}`))).toEqual([]);
}

async function send(broker: Sender, value: number): Promise<void> {
  await broker.tell({ publish: [{ topic: 'lodge/smoker/2', payload: JSON.stringify({ probe: { t: value } }) }] });
}

/** How many readings of a piece the load page tells in words. */
async function countOf(page: Page, name: string): Promise<number> {
  const text = await page.getByText(new RegExp(`^${name}: (?:one reading|[\\d,]+ readings)`)).innerText();
  return / one reading/.test(text) ? 1 : Number(/: ([\d,]+) readings/.exec(text)?.[1]?.replaceAll(',', '') ?? 0);
}

test('two feeds are set up, fill the record of a load as it runs, and say when their link is lost', async ({ page, program, device, broker }) => {
  const guard = await guardPage(page);
  await device.tell({ set: { holding: { 0: 455 }, input: { 11: 1810 } } });
  await page.goto(program.url);
  const hand = await brineABatch(page, Date.now());
  await page.evaluate(() => { window.location.hash = '#/office/feeds'; });
  await expect(page.getByText(feeds.none)).toBeVisible();
  await setUpDevice(page, device);
  const box = page.getByRole('region', { name: 'Smokehouse box', exact: true });
  await expect(box.getByText(/^Receiving: last value \d\d:\d\d:\d\d\.$/)).toBeVisible();
  await expect(box.getByText(feeds.nowhere).first()).toBeVisible();
  await setUpBroker(page, broker);
  const wireless = page.getByRole('region', { name: 'Wireless probe', exact: true });
  await expect(wireless.getByText('The broker answers; no temperature has come yet.')).toBeVisible();
  await expectAccessible(page);

  await page.getByRole('link', { name: words.frame.places.smokehouse }).click();
  await hand.tapWords('radio', 'Stone smoker');
  await hand.tapWords('button', smokehouse.open);
  await hand.at(Date.now());
  await hand.tapWords('button', smokehouse.fishIsIn);
  await send(broker, 46.25);
  await hand.tapWords('button', chart.inWords);
  await expect.poll(() => countOf(page, smokehouse.pieceName(1))).toBeGreaterThanOrEqual(2);
  const before = await countOf(page, smokehouse.pieceName(1));
  await device.tell({ set: { holding: { 0: 1462 } } });
  await send(broker, 146.25);
  await expect.poll(() => countOf(page, smokehouse.pieceName(1))).toBeGreaterThan(before);
  await expect(page.getByText(new RegExp(`^${smokehouse.pieceName(1)}: .*146\\.2 °F`))).toBeVisible();
  await expect(page.getByText(new RegExp(`^${smokehouse.pieceName(2)}: 2 readings.*146\\.3 °F`))).toBeVisible();
  await hand.tapWords('button', smokehouse.chart.asDrawing);
  const line = page.locator('.series-paths path[stroke-linecap]').first();
  const drawn = await line.getAttribute('d');
  await expect.poll(() => line.getAttribute('d')).not.toBe(drawn);

  await device.tell({ cut: true });
  await broker.tell({ cut: true });
  await page.evaluate(() => { window.location.hash = '#/office/feeds'; });
  await expect(box.getByText(/^No answer since \d\d:\d\d:\d\d \(trying again every \d+ s\): the connection was refused/)).toBeVisible();
  await expect(wireless.getByText(/^No answer since \d\d:\d\d:\d\d/)).toBeVisible();
  await device.tell({ cut: false });
  await expect(box.getByText(/^Receiving: last value/)).toBeVisible();
  guard.expectQuiet();
});
