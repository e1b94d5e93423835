/** What the kitchen needs to know of a species of fish. The list itself is data in `assets/fish`. */
import type { SourceNote } from './ingredients.ts';

/**
 * What US law lets a smoker add of sodium nitrite for sale (21 CFR 172.175 and 172.177): up to
 * 200 ppm in smoked salmon, sablefish and shad; chub under a rule of its own; up to 10 ppm in smoked
 * tuna; no other fish is listed.
 */
export type NitriteRule = '200ppm' | 'chub' | 'tuna-10ppm' | 'none';

export interface FishSpecies {
  /** The key of a species everywhere. */
  readonly scientificName: string;
  readonly commonName: string;
  /** The name that a label carries. */
  readonly marketName: string;
  /** Other names that may stand on a label. */
  readonly alsoMarketNames: readonly string[];
  /** Names people use that must not be a label's name for the fish. */
  readonly vernacularNames: readonly string[];
  readonly nameSource: SourceNote;
  /** First two letters of a lot's code; no two species share one. */
  readonly twoLetterCode: string;
  /** Of the raw flesh, per cent by weight. */
  readonly moisturePercent: number;
  readonly fatPercent: number;
  readonly saltPercent: number;
  readonly compositionSource: SourceNote;
  readonly nitriteAllowed: NitriteRule;
  readonly nitriteSource: SourceNote;
  /** Named in the US Food Code as needing no freezing against parasites, farmed or wild. */
  readonly parasiteExempt: boolean;
  readonly parasiteSource: SourceNote;
  /** Usually taken in fresh water; salmon that come in from the sea are not. */
  readonly freshwater: boolean;
}
