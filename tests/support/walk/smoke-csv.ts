/** An invented logger's file: three pieces and the chamber, six hours, a reading a minute. */

const MINUTE_MS = 60_000;
export const LOG_MINUTES = 360;
/** Minutes from fish in to fish out; the rest is cooling. */
export const OUT_MINUTE = 210;
const CORES = [{ full: 152, slow: 50 }, { full: 151, slow: 52 }, { full: 150, slow: 54 }] as const;
const COLD = 34;
const COOLING_MINUTES = 44;

export interface SmokeLog {
  readonly csv: string;
  readonly startMs: number;
  readonly outMs: number;
  readonly endMs: number;
  /** The readings of the pieces as they stand in the file, by minute. */
  readonly pieces: readonly (readonly number[])[];
}

/**
 * Makes the file so that it ends at `endMs`.
 * @param lost minutes that are missing from it, as when a logger's battery was pulled
 */
export function makeSmokeLog(endMs: number, lost: (minute: number) => boolean = () => false): SmokeLog {
  const startMs = endMs - LOG_MINUTES * MINUTE_MS;
  const minutes = Array.from({ length: LOG_MINUTES + 1 }, (_, minute) => minute);
  const pieces = CORES.map((core) => minutes.map((minute) => tenth(coreAt(core, minute))));
  const rows = minutes.filter((minute) => !lost(minute)).map((minute) => [
    new Date(startMs + minute * MINUTE_MS).toISOString().replace('.000', ''),
    ...pieces.map((piece) => (piece[minute] ?? 0).toFixed(1)),
    tenth(chamberAt(minute)).toFixed(1),
  ].join(','));
  return {
    csv: ['Time,Probe 1 (°F),Probe 2 (°F),Probe 3 (°F),Chamber (°F)', ...rows, ''].join('\n'),
    startMs, outMs: startMs + OUT_MINUTE * MINUTE_MS, endMs, pieces,
  };
}

function coreAt(core: (typeof CORES)[number], minute: number): number {
  const heated = (at: number): number => core.full - (core.full - 40) * Math.exp(-((at / core.slow) ** 1.6) / 1.6);
  if (minute <= OUT_MINUTE) return heated(minute);
  return COLD + (heated(OUT_MINUTE) - COLD) * Math.exp(-(minute - OUT_MINUTE) / COOLING_MINUTES);
}

function chamberAt(minute: number): number {
  if (minute > OUT_MINUTE) return 62 + 100 * Math.exp(-(minute - OUT_MINUTE) / 20);
  return Math.min(176, 84 + minute * 1.4) + 1.5 * Math.sin(minute / 7);
}

function tenth(degrees: number): number {
  return Math.round(degrees * 10) / 10;
}
