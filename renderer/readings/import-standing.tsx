import type { ReactNode } from 'react';
import type { Output } from '../../app/contract/contract.ts';
import { PressButton } from '../parts/button.tsx';
import { Field } from '../parts/field.tsx';
import { useFormats } from '../parts/format.ts';
import { words } from '../words/words.ts';

const text = words.smokehouse.importing;
type Read = Output<'readings.preview'>;

interface ImportStandingProps {
  readonly before: Read['before'];
  /** The file as read with the chosen columns. */
  readonly standing: Pick<Read, 'already' | 'otherTimes'> | undefined;
  readonly whyAgain: string;
  onWhy(why: string): void;
  onAfresh(): void;
}

/** How the file stands to the book: read as one before it, there already in part, or there with other times. */
export function ImportStanding({ before, standing, whyAgain, onWhy, onAfresh }: ImportStandingProps): ReactNode {
  const formats = useFormats();
  const already = standing?.already;
  const otherTimes = standing?.otherTimes;
  return (
    <>
      {before === undefined ? null : (
        <div className="row">
          <p>{text.before(before.fileName, formats.longMoment(before.takenAtMs))}</p>
          <PressButton look="quiet" onPress={onAfresh}>{text.afresh}</PressButton>
        </div>
      )}
      {already === undefined || already.there === 0 ? null : (
        <p className="note caution" role="note">{already.there === already.all ? text.allThere(already.all) : text.someThere(already.there, already.all)}</p>
      )}
      {otherTimes === undefined ? null : (
        <section className="note fault-note">
          <p>{text.otherTimes(formats.longMoment(otherTimes.takenAtMs), formats.longMoment(otherTimes.firstAtMs))}</p>
          <Field label={text.whyAgain} value={whyAgain} onChange={onWhy} />
        </section>
      )}
    </>
  );
}
