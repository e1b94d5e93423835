import type { ReactNode } from 'react';
import type { Output } from '../../app/contract/contract.ts';
import { CheckSource } from '../parts/check-list.tsx';
import { dayInWords } from '../parts/format.ts';
import { words } from '../words/words.ts';

/** Every check with its verdict in words and its reason; then the laboratory results and the gates. */
export function RecordChecks({ record }: { readonly record: Output<'record.batch'> }): ReactNode {
  const { deciding } = record;
  return (
    <>
      <p><b>{deciding.words}</b></p>
      <ol>
        {deciding.checks.filter((check) => check.verdict !== 'does-not-apply').map((check) => (
          <li key={check.checkId}>
            <b>{check.title}: {words.verdict.names[check.verdict]}.</b> {check.reason}
            <CheckSource check={check} />
          </li>
        ))}
      </ol>
      {deciding.notJudgedHere.length === 0 ? null : <p>{words.verdict.notJudged(deciding.notJudgedHere.join(', '))}</p>}
      {record.labResults.length === 0 ? null : (
        <ul>
          {record.labResults.map((result) => (
            <li key={result.id}>
              {words.packingTable.labLine(dayInWords(result.sampledOn), result.saltPercent, result.moisturePercent, result.waterPhasePercent.toFixed(2), result.nitritePpm === null ? '' : words.packingTable.nitriteLine(result.nitritePpm))}, {result.laboratory}
            </li>
          ))}
        </ul>
      )}
      <ul>{record.gates.map((gate) => <li key={gate.gate}><b>{words.packingTable.gate[gate.gate]}:</b> {gate.line}</li>)}</ul>
    </>
  );
}
