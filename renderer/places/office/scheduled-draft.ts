/** The draft of a scheduled process, as the form holds it. */
import type { Scheduled, ScheduledDraft } from '../../../app/contract/requests/papers.ts';

/** Every entry as text; empty where the letter sets no such limit. */
export interface ScheduledForm {
  readonly name: string;
  readonly paperId: string;
  readonly recipeId: string;
  readonly version: string;
  readonly ratio: string;
  readonly thickness: string;
  readonly soak: string;
  readonly brine: string;
  readonly brineUnit: 'F' | 'C';
  readonly yield: string;
  readonly laboratory: string;
  readonly verifiedOn: string;
  readonly verifiedUntil: string;
}

/** An empty form; the letter is chosen where there is only one. */
export function emptyScheduled(letterIds: readonly string[], unit: 'F' | 'C'): ScheduledForm {
  return {
    name: '', paperId: letterIds.length === 1 ? (letterIds[0] ?? '') : '', recipeId: '', version: '', ratio: '', thickness: '', soak: '', brine: '', brineUnit: unit, yield: '',
    laboratory: '', verifiedOn: '', verifiedUntil: '',
  };
}

/** A kept one, to be changed. */
export function scheduledForm(scheduled: Scheduled, unit: 'F' | 'C'): ScheduledForm {
  return {
    name: scheduled.name, paperId: scheduled.paperId, recipeId: scheduled.recipeId ?? '', version: scheduled.recipeVersion === null ? '' : String(scheduled.recipeVersion),
    ratio: scheduled.ratioAtLeast, thickness: scheduled.thicknessMmAtMost, soak: scheduled.soakHoursAtLeast,
    brine: scheduled.brineAtMost?.text ?? '', brineUnit: scheduled.brineAtMost?.unit ?? unit, yield: scheduled.yieldPercentAtMost,
    laboratory: scheduled.laboratory, verifiedOn: scheduled.verifiedOn ?? '', verifiedUntil: scheduled.verifiedUntil ?? '',
  };
}

/** What `scheduled.save` takes; a version that is no number goes as 0, which is refused with its sentence. */
export function scheduledInput(form: ScheduledForm): ScheduledDraft {
  const version = form.version.trim();
  return {
    name: form.name, paperId: form.paperId, recipeId: form.recipeId === '' ? null : form.recipeId,
    recipeVersion: version === '' || form.recipeId === '' ? null : /^\d{1,6}$/.test(version) ? Number(version) : 0,
    ratioAtLeast: form.ratio, thicknessMmAtMost: form.thickness, soakHoursAtLeast: form.soak,
    brineAtMost: form.brine.trim() === '' ? null : { text: form.brine, unit: form.brineUnit }, yieldPercentAtMost: form.yield,
    laboratory: form.laboratory, verifiedOn: form.verifiedOn === '' ? null : form.verifiedOn, verifiedUntil: form.verifiedUntil === '' ? null : form.verifiedUntil,
  };
}
