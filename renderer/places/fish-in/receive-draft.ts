/** From what stands in the form to what is sent. Pure: the time is handed in. */
import type { Input } from '../../../app/contract/contract.ts';
import type { FishForm } from '../../../app/contract/requests/fish.ts';
import type { Kitchen } from '../../../app/contract/requests/office.ts';

export interface FormState {
  readonly source: 'guest' | 'supplier' | null;
  readonly ownerName: string;
  readonly licence: string;
  readonly caughtArea: string;
  readonly supplierName: string;
  readonly supplierLot: string;
  readonly speciesId: string;
  readonly form: FishForm;
  readonly weight: string;
  readonly pieces: string;
  readonly temperature: string;
  readonly receivedAtMs: number | null;
  readonly withTimes: boolean;
  readonly caughtAtMs: number | null;
  readonly icedAtMs: number | null;
}

export function emptyForm(): FormState {
  return {
    source: null, ownerName: '', licence: '', caughtArea: '', supplierName: '', supplierLot: '', speciesId: '',
    form: 'fillet-skin-on', weight: '', pieces: '', temperature: '', receivedAtMs: null, withTimes: false, caughtAtMs: null, icedAtMs: null,
  };
}

/** What must stand in the form before it can be sent. */
export type Gap = 'ownerName' | 'supplierName' | 'supplierLot' | 'speciesId' | 'pieces';

/** The command of a form, or null with what is still empty; `pieces` is among it too when the count is no whole number. */
export function draftOf(form: FormState, kitchen: Kitchen, nowMs: number): { input: Input<'fishLot.receive'> | null; gaps: readonly Gap[] } {
  const pieces = /^[1-9]\d{0,4}$/.test(form.pieces.trim()) ? Number(form.pieces) : null;
  const texts: readonly Exclude<Gap, 'pieces'>[] = form.source === 'guest' ? ['ownerName', 'speciesId'] : ['supplierName', 'supplierLot', 'speciesId'];
  const gaps: readonly Gap[] = [...texts.filter((key) => form[key].trim() === ''), ...(pieces === null ? ['pieces' as const] : [])];
  if (pieces === null || gaps.length > 0 || form.source === null) return { input: null, gaps };
  const optional = (key: 'licence' | 'caughtArea'): Record<string, string> => (form[key].trim() === '' ? {} : { [key]: form[key] });
  return {
    gaps,
    input: {
      source: form.source === 'guest'
        ? { kind: 'guest', ownerName: form.ownerName, ...optional('licence'), ...optional('caughtArea') }
        : { kind: 'supplier', supplierName: form.supplierName, supplierLot: form.supplierLot },
      speciesId: form.speciesId,
      form: form.form,
      pieces,
      caughtAtMs: form.caughtAtMs,
      icedAtMs: form.icedAtMs,
      receivedAtMs: form.receivedAtMs ?? nowMs,
      note: '',
      mass: { text: form.weight, unit: kitchen.massUnit },
      temperature: form.temperature.trim() === '' ? null : { text: form.temperature, unit: kitchen.temperatureUnit },
    },
  };
}
