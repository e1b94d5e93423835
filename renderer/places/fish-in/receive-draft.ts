/** From what stands in the form to what is sent. Pure: the time is handed in. */
import type { Input } from '../../../app/contract/contract.ts';
import type { FishForm } from '../../../app/contract/requests/fish.ts';
import type { Kitchen } from '../../../app/contract/requests/office.ts';

export interface FormState {
  readonly source: 'guest' | 'supplier' | null;
  readonly ownerName: string;
  /** The guest on file who was tapped; empty for somebody new. */
  readonly guestId: string;
  readonly contact: string;
  readonly room: string;
  readonly checkoutDay: string;
  readonly isParty: boolean;
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
    source: null, ownerName: '', guestId: '', contact: '', room: '', checkoutDay: '', isParty: false, licence: '', caughtArea: '', supplierName: '', supplierLot: '', speciesId: '',
    form: 'fillet-skin-on', weight: '', pieces: '', temperature: '', receivedAtMs: null, withTimes: false, caughtAtMs: null, icedAtMs: null,
  };
}

/** Somebody on file: the one who was tapped, or whose name was typed and nothing that tells another of that name apart. */
export function knownGuestId(form: FormState, known: readonly { readonly id: string; readonly name: string }[]): string | null {
  if (form.guestId !== '') return form.guestId;
  if (form.contact.trim() !== '' || form.room.trim() !== '') return null;
  return known.find(({ name }) => name.toLowerCase() === form.ownerName.trim().toLowerCase())?.id ?? null;
}

/** Whoever is new: kept beside the lot, so that the packs go back to them and they can be called. */
export function newGuest(form: FormState): Input<'guest.save'> {
  return {
    guestId: null,
    draft: { kind: form.isParty ? 'party' : 'guest', name: form.ownerName, contact: form.contact, address: '', room: form.room, checkoutDay: form.checkoutDay === '' ? null : form.checkoutDay },
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
        ? { kind: 'guest', ownerName: form.ownerName, ...(form.guestId === '' ? {} : { guestId: form.guestId }), ...optional('licence'), ...optional('caughtArea') }
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
