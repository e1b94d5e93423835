import { useState, type ReactNode } from 'react';
import type { LabelStock, StockDraft } from '../../../app/contract/requests/label-choice.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { FormLeaf } from '../../parts/form-leaf.tsx';
import { faultOf } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { draftOfStock, EMPTY_SHEET } from './label-draft.ts';

const text = words.labels.office;
const SHEET_FIELDS = ['pageWidth', 'pageHeight', 'columns', 'rows', 'left', 'top', 'across', 'down'] as const;

/** A stock of the kitchen's own: its size in inches or millimetres, and where the labels lie if they come on sheets. */
export function LabelStockForm({ stock, onClose }: { readonly stock: LabelStock | null; onClose(): void }): ReactNode {
  const { kitchen } = useKitchen();
  const save = useCommand('label.saveStock');
  const [draft, setDraft] = useState<StockDraft>(() => draftOfStock(stock, kitchen.massUnit === 'lb' ? 'in' : 'mm'));
  const set = (change: Partial<StockDraft>): void => setDraft({ ...draft, ...change });
  const fault = (path: string): string | null => faultOf(save.failure, `draft.${path}`);
  const { sheet } = draft;
  return (
    <FormLeaf
      title={stock === null ? text.addStock : text.changeStock(stock.name)} hindrance={null} saveText={text.save} busy={save.busy} failure={save.failure}
      onSave={async () => (await save.send({ stockId: stock?.id ?? null, draft })) !== null} onClose={onClose}
    >
      <div className="form-grid">
        <Field label={text.width} kind="figure" value={draft.width} fault={fault('width')} onChange={(width) => set({ width })} />
        <Field label={text.height} kind="figure" value={draft.height} fault={fault('height')} onChange={(height) => set({ height })} />
        <Choices label={text.unit} value={draft.unit} choices={(['in', 'mm'] as const).map((id) => ({ id, text: text.units[id] }))} onChange={(unit) => set({ unit })} />
        <Field label={text.stockName} value={draft.name} fault={fault('name')} onChange={(name) => set({ name })} />
      </div>
      <Choices label={text.kind} value={sheet === null ? 'roll' : 'sheet'} choices={(['roll', 'sheet'] as const).map((id) => ({ id, text: text.kinds[id] }))} onChange={(id) => set({ sheet: id === 'sheet' ? (sheet ?? EMPTY_SHEET) : null })} />
      {sheet === null ? null : (
        <div className="form-grid">
          {SHEET_FIELDS.map((key) => <Field key={key} label={text.sheetFields[key]} kind="figure" value={sheet[key]} fault={fault(`sheet.${key}`)} onChange={(value) => set({ sheet: { ...sheet, [key]: value } })} />)}
        </div>
      )}
    </FormLeaf>
  );
}
