/** Invented but lifelike temperature logs: a smoker that ramps up, fish that follow it, fish that cool in a cold room. */

const MINUTE_MS = 60_000;

/** One point a minute, °F. */
export type MinuteSeries = readonly number[];

/** The air of a smoker: from `startF` up to `topF` in `rampMinutes`, then kept there with a small swing. */
export function chamberAir(minutes: number, { startF = 70, topF = 185, rampMinutes = 60 } = {}): MinuteSeries {
  return Array.from({ length: minutes + 1 }, (_value, minute) => {
    const base = startF + (topF - startF) * Math.min(1, minute / rampMinutes);
    return round(base + 1.5 * Math.sin(minute / 7));
  });
}

/**
 * The core of a piece in air of a given temperature.
 * @param lagMinutes how slowly it follows: thick pieces have more
 */
export function coreIn(air: MinuteSeries, startF: number, lagMinutes: number): MinuteSeries {
  let core = startF;
  return air.map((airF, minute) => {
    if (minute > 0) core += (airF - core) / lagMinutes;
    return round(core);
  });
}

/** The air of a cooler or freezer that stays where it is. */
export function steadyAir(minutes: number, airF: number): MinuteSeries {
  return Array.from({ length: minutes + 1 }, () => airF);
}

/** A logger's CSV with ISO times in UTC and one column a series; `leaveOut` drops rows by minute. */
export function csvOf(startMs: number, columns: Readonly<Record<string, MinuteSeries>>, leaveOut: (minute: number) => boolean = () => false): string {
  const names = Object.keys(columns);
  const longest = Math.max(...names.map((name) => columns[name]?.length ?? 0));
  const rows: string[] = [['Time', ...names.map((name) => `${name} (°F)`)].join(',')];
  for (let minute = 0; minute < longest; minute += 1) {
    if (leaveOut(minute)) continue;
    const cells = names.map((name) => columns[name]?.[minute]?.toFixed(1) ?? '');
    rows.push([new Date(startMs + minute * MINUTE_MS).toISOString(), ...cells].join(','));
  }
  return `${rows.join('\n')}\n`;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
