/** What the trays of a batch say together: the worst of them. Instants in UTC ms. */

export interface TrayTimes {
  readonly sealedAtMs: number | null;
  readonly intoFreezerAtMs: number;
  readonly frozenAtMs: number | null;
  readonly outAtMs: number | null;
}

export interface TogetherTimes {
  /** The first that was sealed. */
  readonly sealedAtMs: number | null;
  /** The last that went in: from then on all of them lay in a freezer. */
  readonly intoFreezerAtMs: number;
  /** The last that was solid; null while any is not. */
  readonly frozenAtMs: number | null;
  /** The first taken out: until then all of them lay in a freezer. */
  readonly firstOutAtMs: number | null;
  /** The last taken out; null while any still lies there. */
  readonly lastOutAtMs: number | null;
}

/** The worst of all trays; undefined where there are none. */
export function timesTogether(trays: readonly TrayTimes[]): TogetherTimes | undefined {
  const [first, ...others] = trays;
  if (first === undefined) return undefined;
  const { sealedAtMs, intoFreezerAtMs, frozenAtMs } = first;
  const start: TogetherTimes = { sealedAtMs, intoFreezerAtMs, frozenAtMs, firstOutAtMs: first.outAtMs, lastOutAtMs: first.outAtMs };
  return others.reduce((so, tray): TogetherTimes => ({
    sealedAtMs: earlier(so.sealedAtMs, tray.sealedAtMs),
    intoFreezerAtMs: Math.max(so.intoFreezerAtMs, tray.intoFreezerAtMs),
    frozenAtMs: so.frozenAtMs === null || tray.frozenAtMs === null ? null : Math.max(so.frozenAtMs, tray.frozenAtMs),
    firstOutAtMs: earlier(so.firstOutAtMs, tray.outAtMs),
    lastOutAtMs: so.lastOutAtMs === null || tray.outAtMs === null ? null : Math.max(so.lastOutAtMs, tray.outAtMs),
  }), start);
}

function earlier(one: number | null, other: number | null): number | null {
  if (one === null) return other;
  return other === null ? one : Math.min(one, other);
}
