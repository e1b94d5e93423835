import type { ReactNode } from 'react';

const WIDTH = 600;
const HEIGHT = 26;

interface RangeProps {
  readonly percent: number;
  readonly low: number;
  readonly high: number;
  /** The right end of the scale, which begins at 0. */
  readonly mostPercent: number;
  /** What it shows, in words; the bar is read out as this. */
  readonly said: string;
}

/** An estimate as a bar from its low to its high end with a mark at what is likely. Never in a verdict's colour: it proves nothing. */
export function RangeBar({ percent, low, high, mostPercent, said }: RangeProps): ReactNode {
  const x = (value: number): number => Math.round(Math.min(1, Math.max(0, value / mostPercent)) * WIDTH);
  return (
    <svg className="range-bar" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" role="img" aria-label={said}>
      <path d={`M0 13H${WIDTH}`} stroke="var(--rule)" strokeWidth="3" vectorEffect="non-scaling-stroke" />
      <rect x={x(low)} y="4" width={Math.max(2, x(high) - x(low))} height="18" fill="var(--soak-fill)" stroke="var(--lake)" vectorEffect="non-scaling-stroke" />
      <path d={`M${x(percent)} 1v24`} stroke="var(--ink)" strokeWidth="3" vectorEffect="non-scaling-stroke" />
    </svg>
  );
}
