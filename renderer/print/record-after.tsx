import type { ReactNode } from 'react';
import type { Output } from '../../app/contract/contract.ts';
import { useFormats } from '../parts/format.ts';
import { handOverLines } from '../parts/hand-over-lines.ts';
import { SignatureDrawn } from '../parts/signature-drawn.tsx';
import { words } from '../words/words.ts';

const text = words.print.record;
const shelf = words.packingTable;

/** On paper: each pack with where it is, who got some and signed, and what was complained of. */
export function RecordAfter({ record }: { readonly record: Output<'record.batch'> }): ReactNode {
  const formats = useFormats();
  const where = new Map(record.fates.map((fate) => [fate.packId, fate.where]));
  const codeOf = new Map(record.packs.map((pack) => [pack.id, pack.code]));
  return (
    <>
      <h2>{text.packs}</h2>
      <ul>
        {record.packs.map((pack) => <li key={pack.id}>{shelf.packLine(pack.code, formats.mass(pack.net.grams))}, {shelf.printed(pack.printedCount)}; {where.get(pack.id)}</li>)}
      </ul>
      {record.handOvers.length === 0 ? null : <h2>{text.signatures}</h2>}
      {record.handOvers.map(({ handOver, guestName, codes }) => (
        <div key={handOver.id} className="whole">
          <p><b>{words.trace.where.handOver(codes.length, guestName, formats.longMoment(handOver.atMs), handOver.initials)}</b>: {codes.join(', ')}</p>
          <p>{handOverLines(handOver, formats).join(' ')}</p>
          {handOver.signature === null ? null : <SignatureDrawn path={handOver.signature.path} name={handOver.signature.name} />}
        </div>
      ))}
      <h2>{text.complaints}</h2>
      {record.complaints.length === 0 ? <p>{text.noComplaints}</p> : (
        <ul>
          {record.complaints.map((complaint) => (
            <li key={complaint.id}>
              {words.trace.complaints.line(complaint.fromName, complaint.packId === null ? '' : (codeOf.get(complaint.packId) ?? ''), formats.longMoment(complaint.atMs), complaint.initials)}: {complaint.what}
              {complaint.outcome === null ? '' : ` ${words.trace.complaints.closed(formats.longMoment(complaint.outcome.atMs), complaint.outcome.initials)} ${complaint.outcome.text}`}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
