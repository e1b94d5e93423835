import { useEffect, useRef, useState, type ReactNode, type RefObject } from 'react';
import type { LineBar } from '../../app/contract/requests/record.ts';
import { useAsk, useCommand } from '../bridge/use-ask.ts';
import { PressButton } from '../parts/button.tsx';
import { useFormats } from '../parts/format.ts';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { drawLine, type LineRow } from './line-drawing.ts';
import './the-line.css';

const LEAST_WIDTH = 320;
/** The line moves on by itself, so that a turn comes due on it without a tap. */
const MOVE_MS = 60_000;

/** The strip over every place: each batch as a bar of steps, turns due, deadlines, and now. */
export function TheLine(): ReactNode {
  const line = useAsk('line.get', {});
  const log = useCommand('soak.log');
  const { refetch } = line;
  useEffect(() => {
    const timer = setInterval(() => { void refetch(); }, MOVE_MS);
    return () => clearInterval(timer);
  }, [refetch]);
  const formats = useFormats();
  const box = useRef<HTMLElement>(null);
  const width = useWidth(box);
  if (line.data !== undefined && line.data.bars.length === 0) {
    return <figure className="line" ref={box}><p className="soft nothing">{words.frame.line.nothing}</p></figure>;
  }
  if (line.data === undefined || width < LEAST_WIDTH) return <figure className="line" ref={box} />;
  const drawing = drawLine(line.data, formats, width);
  return (
    <figure className="line" ref={box}>
      <svg width={width} height={drawing.height} role="img" aria-label={words.frame.line.title}>
        <defs>
          <pattern id="soak-waves" width="8" height="8" patternUnits="userSpaceOnUse">
            <rect width="8" height="8" fill="var(--soak-fill)" />
            <path d="M0 6c2-2 2-2 4 0s2 2 4 0" fill="none" stroke="var(--lake)" strokeWidth="1.1" />
          </pattern>
          <pattern id="cool-hatch" width="7" height="7" patternUnits="userSpaceOnUse">
            <rect width="7" height="7" fill="var(--cool-fill)" />
            <path d="M0 7L7 0" stroke="var(--moss)" strokeWidth="1.2" />
          </pattern>
          <pattern id="freeze-cross" width="9" height="9" patternUnits="userSpaceOnUse">
            <rect width="9" height="9" fill="var(--freeze-fill)" />
            <path d="M2 2l5 5M7 2l-5 5" stroke="var(--soft)" strokeWidth="1" />
          </pattern>
        </defs>
        {drawing.hours.map((hour) => (
          <g key={hour.x}>
            <path d={`M${hour.x} 24V${drawing.height - 4}`} stroke="var(--rule)" />
            <text className="number" x={hour.x} y="18" textAnchor="middle">{hour.text}</text>
          </g>
        ))}
        {drawing.rows.map((row) => <Row key={row.batchId} row={row} />)}
        <path d={`M${drawing.nowX} 20V${drawing.height - 2}`} stroke="var(--ink)" strokeWidth="2" />
        <path d={`M${drawing.nowX - 7} 20h14l-7 8z`} fill="var(--ink)" />
      </svg>
      {drawing.rows.map((row) => (
        <DueTurn key={row.batchId} row={row} clock={formats.clock} isBusy={log.busy} onTurned={(batchId) => { void log.send({ batchId, what: 'turn', atMs: Date.now(), brine: null, room: null }); }} />
      ))}
      <ProblemNote failure={log.failure} />
      <ul className="only-read-aloud">
        {line.data.bars.map((bar) => <li key={bar.batchId}>{sayBar(bar, formats.moment)}</li>)}
      </ul>
      {drawing.hidden === 0 ? null : <p className="soft small more">{words.frame.line.more(drawing.hidden)}</p>}
    </figure>
  );
}

/** The width of an element as it is now, so that text on the line keeps its true size. */
function useWidth(box: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    const watch = new ResizeObserver(() => setWidth(Math.floor(element.clientWidth)));
    watch.observe(element);
    return () => watch.disconnect();
  });
  return width;
}

function Row({ row }: { readonly row: LineRow }): ReactNode {
  return (
    <g>
      <text className="name" x="8" y={row.y + 15}>{row.name}</text>
      {row.steps.map((step) => (
        <g key={step.key} opacity={step.planned ? 0.55 : 1}>
          {step.kind === 'dry'
            ? <path d={`M${step.x + 2} ${row.y + 10}h${Math.max(0, step.width - 4)}`} stroke="var(--soft)" strokeWidth="3" strokeDasharray="1 6" strokeLinecap="round" />
            : <rect className={`step ${step.kind}`} x={step.x} y={row.y} width={step.width} height="20" rx="3" {...(step.planned ? { strokeDasharray: '4 3' } : {})} />}
        </g>
      ))}
      {row.turns.map((turn) => (
        <path key={turn.key} d={`M${turn.x} ${row.y - 2}l6 12-6 12-6-12z`} fill={turn.done ? 'var(--ink)' : 'var(--sheet)'} stroke="var(--ink)" strokeWidth="1.6" />
      ))}
      {row.due === null ? null : (
        <text className={row.due.overdue ? 'due overdue' : 'due'} x={row.due.x} y={row.y + 15} textAnchor={row.due.anchor}>{row.due.text}</text>
      )}
    </g>
  );
}

interface DueTurnProps {
  readonly row: LineRow;
  readonly isBusy: boolean;
  clock(atMs: number): string;
  onTurned(batchId: string): void;
}

/** One tap where the turn stands: it was turned just now. */
function DueTurn({ row, isBusy, clock, onTurned }: DueTurnProps): ReactNode {
  const { turnDue } = row;
  if (turnDue === null) return null;
  const { turn, soakLog } = words.brineBench;
  return (
    <div className="turn-due" style={{ top: turnDue.top, [turnDue.anchor === 'start' ? 'left' : 'right']: turnDue.x }}>
      <span className={turnDue.overdue ? 'overdue' : ''}>{soakLog.turnDue(clock(turnDue.atMs))}</span>
      <PressButton label={`${turn} ${row.name}`} isDisabled={isBusy} onPress={() => onTurned(row.batchId)}>{turn}</PressButton>
    </div>
  );
}

function sayBar(bar: LineBar, moment: (atMs: number) => string): string {
  const steps = bar.steps.map((step) => `${words.frame.line.steps[step.kind]}${step.planned ? ` (${words.frame.line.planned})` : ''} ${moment(step.fromMs)} – ${moment(step.toMs)}`);
  const turns = bar.turns.map((turn) => `${turn.done ? words.frame.line.turnDone : words.frame.line.turn} ${moment(turn.atMs)}`);
  const dues = bar.dues.map((due) => `${due.overdue ? words.frame.line.overdue : words.frame.line.due} ${moment(due.atMs)}: ${due.text}`);
  return `${bar.name}: ${[...steps, ...turns, ...dues].join('; ')}`;
}
