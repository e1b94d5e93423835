import { useState, type ReactNode } from 'react';
import type { LabelChoice, LabelStock } from '../../../app/contract/requests/label-choice.ts';
import { failureOf, useAsk } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { LabelChoiceForm } from './label-choice-form.tsx';
import { lengthText } from './label-draft.ts';
import { LabelStockForm } from './label-stock-form.tsx';

const text = words.labels.office;

/** What the kitchen chose for its labels, and its own stocks. */
export function LabelPage(): ReactNode {
  const labels = useAsk('label.choice', {});
  const [editing, setEditing] = useState(false);
  if (labels.data === undefined) return <ProblemNote failure={failureOf(labels.error)} />;
  const { choice, ownStocks } = labels.data;
  return (
    <>
      <section className="sheet stack">
        <h2>{text.title}</h2>
        <p className="soft">{text.lead}</p>
        <ul>{chosenLines(choice).map((line) => <li key={line}>{line}</li>)}</ul>
        <div><PressButton onPress={() => setEditing(true)}>{text.change}</PressButton></div>
        {editing ? <LabelChoiceForm choice={choice} onClose={() => setEditing(false)} /> : null}
      </section>
      <OwnStocks stocks={ownStocks} />
    </>
  );
}

function chosenLines({ pouch, dpi, symbol, gtin, mark, secondLanguage, role, optional }: LabelChoice): readonly string[] {
  return [
    pouch === null ? text.pouchUnknown : text.pouchSize(lengthText(pouch.widthMm, pouch.unit), lengthText(pouch.heightMm, pouch.unit), text.units[pouch.unit]),
    `${text.printer}: ${text.dpi[dpi]}`,
    `${text.symbol}: ${gtin === null ? text.symbols[symbol] : `GS1 Data Matrix, ${gtin}`}`,
    `${text.mark}: ${mark === null ? text.marks.none : mark.kind === 'text' ? mark.text : text.marks.picture}`,
    `${text.language}: ${text.languages[secondLanguage ?? 'en']}`,
    `${text.role}: ${text.roles[role]}`,
    `${text.optional}: ${optional.length === 0 ? text.marks.none : optional.map((element) => text.elements[element]).join(', ')}`,
  ];
}

function OwnStocks({ stocks }: { readonly stocks: readonly LabelStock[] }): ReactNode {
  const [editing, setEditing] = useState<LabelStock | 'new' | null>(null);
  return (
    <section className="sheet stack">
      <h2>{text.stocks}</h2>
      <p className="soft">{text.stocksLead}</p>
      {stocks.length === 0 ? <p>{text.noStocks}</p> : (
        <ul className="instruments">
          {stocks.map((stock) => (
            <li key={stock.id} className="instrument-row spread middle">
              <span><b>{stock.name}</b> <span className="soft">{stock.sheet === null ? text.roll : text.sheet(stock.sheet.columns, stock.sheet.rows)}</span></span>
              <PressButton look="quiet" onPress={() => setEditing(stock)}>{text.changeStock(stock.name)}</PressButton>
            </li>
          ))}
        </ul>
      )}
      <div><PressButton onPress={() => setEditing('new')}>{text.addStock}</PressButton></div>
      {editing === null ? null : <LabelStockForm stock={editing === 'new' ? null : editing} onClose={() => setEditing(null)} />}
    </section>
  );
}
