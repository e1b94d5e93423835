import { useState, type ReactNode } from 'react';
import type { PaperSheetKind } from '../../app/contract/requests/paper-sheets.ts';
import { failureOf, useAsk, useCommand } from '../bridge/use-ask.ts';
import { useKitchen } from '../frame/kitchen.tsx';
import { useFormats } from '../parts/format.ts';
import { ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { Paper } from './paper.tsx';
import { columnsOf, ROWS, SAMPLE_ROWS, sampleColumns, SHEET_KINDS, type SheetColumn } from './paper-rows.ts';
import './paper-sheet.css';

const text = words.paper.sheet;
const MARGIN_MM = 10;
/** Room for a pencil. */
const BLANK = '\u00a0';

/** A sheet to read on where no screen is: the columns of the entry screen, with a number that the readings name later. */
export function PaperSheetPage({ kind: asked, subjectId }: { readonly kind: string; readonly subjectId: string }): ReactNode {
  const kind = SHEET_KINDS.find((one) => one === asked) ?? 'store';
  const isOfLoad = kind === 'smoke' || kind === 'cool';
  const load = useAsk('load.get', isOfLoad ? { loadId: subjectId } : null);
  const batch = useAsk('batch.get', kind === 'soak' ? { batchId: subjectId } : null);
  const office = useAsk('office.get', {});
  const numbering = useCommand('paperSheet.number');
  const [number, setNumber] = useState<number | null>(null);
  const { kitchen } = useKitchen();
  const page = kitchen.massUnit === 'lb' ? { widthMm: 216, heightMm: 279 } : { widthMm: 210, heightMm: 297 };
  const place = office.data?.places.find((one) => one.id === subjectId);
  const about = kind === 'soak' ? batch.data && text.aboutBatch(batch.data.batch.shortName, batch.data.batch.marketName)
    : isOfLoad ? load.data && text.aboutLoad(words.smokehouse.loadTitle(load.data.load.smokerName, load.data.load.number), load.data.batches.map((one) => `${one.shortName} ${one.marketName}`).join(', ')) : place?.name;
  if (about === undefined) return <ProblemNote failure={failureOf(load.error ?? batch.error ?? office.error)} />;
  /** Each print is a sheet of its own; the number must be on the page before the printer gets it. */
  const takeNumber = async (): Promise<boolean> => {
    const answer = await numbering.send({ kind, subjectId });
    if (answer === null) return false;
    setNumber(answer.sheet.number);
    await new Promise((settle) => { requestAnimationFrame(() => requestAnimationFrame(settle)); });
    return true;
  };
  return (
    <Paper {...page} marginMm={MARGIN_MM} printText={text.print} beforePrint={takeNumber} above={<ProblemNote failure={numbering.failure} />}>
      <article className="paper-sheet" style={{ width: `${page.widthMm - 2 * MARGIN_MM}mm` }}>
        <SheetHead kind={kind} number={number} about={about} />
        {isOfLoad && load.data !== undefined ? <LoadLines kind={kind} limits={load.data.limitLines.filter((line) => (line.kind === 'target') === (kind === 'cool')).map((line) => line.text)} /> : null}
        <SheetTable kind={kind} columns={columnsOf(kind, load.data?.load ?? null)} rows={ROWS[kind]} />
        {kind === 'soak' ? (
          <>
            <h2>{text.samples}</h2>
            <SheetTable kind={kind} columns={sampleColumns()} rows={SAMPLE_ROWS} />
          </>
        ) : null}
        <p className="print-caution">{(kind === 'soak' ? text.laterSoak : text.later)(number === null ? '____' : String(number))} {words.frame.caution}</p>
      </article>
    </Paper>
  );
}

function SheetHead({ kind, number, about }: { readonly kind: PaperSheetKind; readonly number: number | null; readonly about: string }): ReactNode {
  const { kitchen } = useKitchen();
  return (
    <header>
      <p className="sheet-number">{text.number} <b className="number">{number === null ? text.numberLater : number}</b></p>
      <h1>{text.titles[kind]}: {about}</h1>
      <p>{kitchen.name}. {text.day} ____________________ {text.thermometer} ____________________</p>
    </header>
  );
}

function LoadLines({ kind, limits }: { readonly kind: PaperSheetKind; readonly limits: readonly string[] }): ReactNode {
  return (
    <>
      <p>{kind === 'smoke' ? `${text.fishIn} __________ ${text.endOfSmoking} __________ ${text.fishOut} __________` : `${text.fishOut} __________ ${text.cooled} __________`}</p>
      <p><b>{text.toShow}</b> {[...new Set(limits)].join('; ')}. {kind === 'smoke' ? text.smokeRounds : text.coolRounds}</p>
    </>
  );
}

interface SheetTableProps {
  readonly kind: PaperSheetKind;
  readonly columns: readonly SheetColumn[];
  readonly rows: number;
}

function SheetTable({ kind, columns, rows }: SheetTableProps): ReactNode {
  const formats = useFormats();
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{kind === 'store' ? text.dayAndTime : text.time}</th>
          {columns.map((column) => <th key={column.key} scope="col">{column.head}{column.isTemperature ? `, ${formats.degreeSign}` : ''}<span>{column.about}</span></th>)}
          <th scope="col">{text.initials}</th>
        </tr>
      </thead>
      <tbody>
        {Array.from({ length: rows }, (_, row) => (
          <tr key={row}><td>{BLANK}</td>{columns.map((column) => <td key={column.key}>{BLANK}</td>)}<td>{BLANK}</td></tr>
        ))}
      </tbody>
    </table>
  );
}
