import type { ReactNode } from 'react';
import { useAddress } from '../frame/address.ts';
import { CardSheet } from './card-sheet.tsx';
import { GuestSheet } from './guest-sheet.tsx';
import { HoldTag } from './hold-tag.tsx';
import { KeptLabels } from './label-kept.tsx';
import { LabelRun } from './label-run.tsx';
import { PaperSheetPage } from './paper-sheet.tsx';
import { RecallSheet } from './recall-sheet.tsx';
import { RecordSheet } from './record-sheet.tsx';
import './print.css';

/** Everything printed is a page of its own, black on white, exact in millimetres. */
export function PrintView(): ReactNode {
  const { rest, query } = useAddress();
  const [what, batchId = ''] = rest;
  switch (what) {
    case 'card':
      return <CardSheet batchId={batchId} />;
    case 'labels':
      return <LabelRun batchId={batchId} stockId={query.get('stock') ?? ''} />;
    case 'printed':
      return <KeptLabels batchId={batchId} printId={rest[2] ?? ''} />;
    case 'sheet':
      return <PaperSheetPage kind={batchId} subjectId={rest[2] ?? ''} />;
    case 'guest':
      return <GuestSheet handOverId={batchId} />;
    case 'hold':
      return <HoldTag batchId={batchId} />;
    case 'recall':
    case 'calls':
      return <RecallSheet recallId={batchId} only={what === 'calls' ? 'calls' : null} />;
    default:
      return <RecordSheet batchId={batchId} />;
  }
}
