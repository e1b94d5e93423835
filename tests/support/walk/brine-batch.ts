/** From the fish coming in to the smoker’s door, and by hand into it, as the people of the demonstration kitchen would do it. */
import { expect } from '@playwright/test';
import type { Page } from '@playwright/test';
import { words } from '../../../renderer/words/words.ts';
import { Hand } from './hand.ts';

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;

/** What is typed of the fish; a field that is left out is left alone. */
export interface BrinedFish {
  readonly weight: string;
  readonly pieces: string;
  readonly fillets: string;
  readonly thickest: string;
  readonly licence?: string;
  readonly temperature?: string;
  readonly cold?: boolean;
}

const TROUT: BrinedFish = { weight: '13.0', pieces: '8', fillets: '12.4', thickest: '34', licence: 'MN-4471', temperature: '36.5' };

/** The chef on duty, the fish received and brined, two hours before it goes in at `inMs`; stops at the smokehouse. */
export async function brineABatch(page: Page, inMs: number, fish: BrinedFish = TROUT): Promise<Hand> {
  const hand = new Hand(page);
  const { fishIn, brineBench, frame } = words;
  await hand.at(inMs - 5 * HOUR_MS);
  await hand.tap(page.locator('.row-button').filter({ hasText: frame.roles.chef }).first(), 'chef on duty');

  await hand.tapWords('radio', fishIn.guest);
  await hand.type(fishIn.ownerName, 'Ivo Brandt');
  if (fish.licence !== undefined) await hand.type(fishIn.licence, fish.licence);
  await hand.pick(fishIn.species, 'Lake trout');
  await hand.type(fishIn.weight, fish.weight);
  await hand.type(fishIn.pieces, fish.pieces);
  if (fish.temperature !== undefined) await hand.type(fishIn.temperature, fish.temperature);
  await hand.tapWords('button', fishIn.receive);
  await expect(page.getByRole('status')).toHaveText(/^Kept as fish lot F\d{5}\d{2}./);

  await hand.tapWords('link', fishIn.toBench);
  await hand.tap(page.getByRole('radio', { name: /Lake trout.*Ivo Brandt/ }).or(page.getByRole('button', { name: /Lake trout.*Ivo Brandt/ })).first(), 'the lot');
  await hand.type(brineBench.fillets, fish.fillets);
  await hand.type(brineBench.thickest, fish.thickest);
  if (fish.cold === true) await hand.tapWords('radio', brineBench.cold);
  await hand.tapWords('radio', 'Plain brine');
  await hand.tapWords('button', brineBench.make);
  await hand.at(inMs - 4 * HOUR_MS);
  await hand.type(brineBench.brineTemperature, '37.6');
  await hand.tapWords('button', brineBench.start);
  await expect(page.getByText(/^Started /)).toBeVisible();
  await hand.at(inMs - 2 * HOUR_MS);
  await hand.tapWords('button', brineBench.end);

  await hand.tapWords('link', brineBench.toSmokehouse);
  return hand;
}

/** Opens a load in the stone smoker and puts the fish in. */
export async function putIn(hand: Hand, inMs: number): Promise<void> {
  const { smokehouse } = words;
  await hand.tapWords('radio', 'Stone smoker');
  await hand.tapWords('button', smokehouse.open);
  await hand.at(inMs);
  await hand.tapWords('button', smokehouse.fishIsIn);
}

/** One round by hand, piece after piece, in the leaf that is open and stays open. */
export async function readRound(hand: Hand, atMs: number, values: readonly number[]): Promise<void> {
  const { smokehouse } = words;
  await hand.at(atMs);
  for (const [index, value] of values.entries()) await hand.type(smokehouse.pieceName(index + 1), value.toFixed(1));
  await hand.tapWords('button', smokehouse.entry.keep);
  await expect(hand.page.getByRole('status')).toHaveText(smokehouse.entry.kept(values.length));
  await expect(hand.page.getByLabel(smokehouse.pieceName(1), { exact: true })).toHaveValue('');
}
