import type { ReactNode } from 'react';
import type { PaperSheetKind } from '../../app/contract/requests/paper-sheets.ts';
import { addressOf } from '../frame/address.ts';
import { words } from '../words/words.ts';

const text = words.paper.sheet;

/** Ways to the sheets for paper. */
export function PaperLinks({ kinds, subjectId }: { readonly kinds: readonly PaperSheetKind[]; readonly subjectId: string }): ReactNode {
  return (
    <p className="soft">
      {text.links}{' '}
      {kinds.map((kind, index) => <span key={kind}>{index === 0 ? '' : ', '}<a className="link" href={addressOf('print', 'sheet', kind, subjectId)}>{text.titles[kind]}</a></span>)}
    </p>
  );
}
