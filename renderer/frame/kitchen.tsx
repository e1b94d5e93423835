/** The open book's kitchen, people and person on duty, for everything below the frame. */
import { createContext, useContext } from 'react';
import type { Kitchen, Person } from '../../app/contract/requests/office.ts';

export interface KitchenAtWork {
  readonly kitchen: Kitchen;
  readonly people: readonly Person[];
  readonly onDuty: Person | null;
  readonly readOnly: boolean;
  setOnDuty(person: Person | null): void;
}

export const KitchenContext = createContext<KitchenAtWork | null>(null);

/** The kitchen at work; only inside the frame. */
export function useKitchen(): KitchenAtWork {
  const kitchen = useContext(KitchenContext);
  if (kitchen === null) throw new Error('no kitchen outside the frame');
  return kitchen;
}
