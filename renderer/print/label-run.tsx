import { useRef, useState, type ReactNode } from 'react';
import type { Pack, StoredLabel } from '../../app/contract/requests/packing.ts';
import { failureOf, useAsk, useCommand } from '../bridge/use-ask.ts';
import { addressOf } from '../frame/address.ts';
import { Field, Pick } from '../parts/field.tsx';
import { faultOf, ProblemNote } from '../parts/problem-note.tsx';
import { words } from '../words/words.ts';
import { liftOf, useLabelFits } from './label-fit.ts';
import { GapList, gapsOnce, LabelChecks, LiftNote } from './label-notes.tsx';
import { labelsOnSheet } from './label-pages.ts';
import { LabelSheets } from './label-sheets.tsx';
import { Paper } from './paper.tsx';

const text = words.labels;

/** The labels of a batch's packs, each a page of the stock's size or in its place on a sheet; what lacks something required is not printed. */
export function LabelRun({ batchId, stockId }: { readonly batchId: string; readonly stockId: string }): ReactNode {
  const packs = useAsk('pack.list', { batchId });
  if (packs.data === undefined) return <ProblemNote failure={failureOf(packs.error)} />;
  return <PackLabels batchId={batchId} stockId={stockId} packs={packs.data.packs} />;
}

interface PackLabelsProps {
  readonly batchId: string;
  readonly stockId: string;
  readonly packs: readonly Pack[];
}

function PackLabels({ batchId, stockId, packs }: PackLabelsProps): ReactNode {
  // Chosen once, so that printing, which counts, doesn't change what is being printed.
  const [chosen, setChosen] = useState(() => ({ which: packs.some(isUnprinted) ? 'unprinted' : 'all', packIds: (packs.some(isUnprinted) ? packs.filter(isUnprinted) : packs).map(({ id }) => id) }));
  const choose = (which: string): void => {
    const packIds = which === 'all' ? packs : which === 'unprinted' ? packs.filter(isUnprinted) : packs.filter(({ id }) => id === which);
    setChosen({ which, packIds: packIds.map(({ id }) => id) });
  };
  const choices = [
    { id: 'all', text: text.allPacks(packs.length) },
    ...(packs.some(isUnprinted) || chosen.which === 'unprinted' ? [{ id: 'unprinted', text: text.unprinted(chosen.which === 'unprinted' ? chosen.packIds.length : packs.filter(isUnprinted).length) }] : []),
    ...packs.map(({ id, code }) => ({ id, text: code })),
  ];
  const labels = useAsk('label.forPacks', chosen.packIds.length === 0 ? null : { packIds: [...chosen.packIds], stockId });
  if (labels.data === undefined) return <ProblemNote failure={failureOf(labels.error)} />;
  const isAgain = packs.some((pack) => chosen.packIds.includes(pack.id) && !isUnprinted(pack));
  return (
    <PrintableLabels key={chosen.which} labels={labels.data.labels} isAgain={isAgain}>
      <Pick label={text.which} value={chosen.which} choices={choices} onChange={choose} />
      <a className="link" href={addressOf('print', 'printed', batchId)}>{text.prints}</a>
    </PrintableLabels>
  );
}

function isUnprinted({ printedCount }: Pack): boolean {
  return printedCount === 0;
}

function PrintableLabels({ labels, isAgain, children }: { readonly labels: readonly StoredLabel[]; readonly isAgain: boolean; readonly children: ReactNode }): ReactNode {
  const printed = useCommand('label.printed');
  const [why, setWhy] = useState('');
  const [startAt, setStartAt] = useState(1);
  const box = useRef<HTMLDivElement>(null);
  const mark = labels[0]?.mark;
  const picture = useAsk('label.mark', mark?.kind === 'picture' ? { fileId: mark.fileId } : null);
  const { fits, scale, isTooSmall } = useLabelFits(box, labels);
  const stock = labels[0]?.stock;
  if (stock === undefined) return null;
  const missing = gapsOnce(labels, 'missing');
  const cautions = gapsOnce(labels, 'cautions');
  const isMeasured = labels.every(({ digest }) => fits.has(digest));
  const liftMm = liftOf(labels, fits);
  const hasPicture = mark?.kind !== 'picture' || picture.data !== undefined;
  const { sheet } = stock;
  const mayPrint = missing.length === 0 && isMeasured && !isTooSmall && (liftMm === null || liftMm >= 0) && hasPicture && (!isAgain || why.trim() !== '') && !printed.busy;
  return (
    <Paper
      widthMm={sheet?.pageWidthMm ?? stock.widthMm}
      heightMm={sheet?.pageHeightMm ?? stock.heightMm}
      marginMm={0}
      printText={words.print.printAndKeep}
      mayPrint={mayPrint}
      beforePrint={async () => (await printed.send({ packIds: labels.map(({ packId }) => packId), stockId: stock.id, digests: labels.map(({ digest }) => digest), ...(why.trim() === '' ? {} : { why: why.trim() }) })) !== null}
      above={(
        <section className="label-above" aria-label={text.title(stock.name)}>
          <h1>{text.title(stock.name)}</h1>
          <div className="row">
            {children}
            {sheet === undefined ? null : <Pick label={text.startAt} value={String(startAt)} choices={positionsOf(sheet)} onChange={(position) => setStartAt(Number(position))} />}
          </div>
          {isAgain ? <Field label={text.why} help={text.whyHelp} value={why} fault={faultOf(printed.failure, 'why')} onChange={setWhy} /> : null}
          <ProblemNote failure={printed.failure} />
          {missing.length === 0 ? null : <div className="note fault-note" role="alert"><p className="strong">{text.missing}</p><GapList gaps={missing} /></div>}
          {isTooSmall ? <p className="fault" role="alert">{text.tooSmall(stock.name)}</p> : null}
          <LiftNote liftMm={liftMm} unit={labels[0]?.placing?.pouch?.unit} />
          {cautions.length === 0 ? null : <div className="note caution"><p>{text.cautions}</p><GapList gaps={cautions} /></div>}
          {labels[0] === undefined ? null : <LabelChecks label={labels[0]} />}
        </section>
      )}
    >
      <div className="label-run" ref={box} {...(isMeasured ? { 'data-measured': '' } : {})}><LabelSheets labels={labels} startAt={startAt} scale={scale} markPicture={picture.data?.base64} /></div>
    </Paper>
  );
}

function positionsOf(sheet: NonNullable<StoredLabel['stock']['sheet']>): { id: string; text: string }[] {
  return Array.from({ length: labelsOnSheet(sheet) }, (_, index) => ({
    id: String(index + 1), text: text.position(Math.floor(index / sheet.columns) + 1, (index % sheet.columns) + 1),
  }));
}
