/** The species the kitchen can receive. */
import type { FishSpecies } from '../../../app/brine/fish-species.ts';
import type { Species } from '../../../app/contract/requests/fish.ts';
import { refuseInput } from './field-refusal.ts';
import type { Room } from '../room.ts';

/**
 * The species of an id.
 * @throws Refusal NOT_FOUND, naming the field `speciesId`
 */
export function speciesOf(room: Pick<Room, 'catalogue'>, speciesId: string): Species {
  return room.catalogue.species.find((candidate) => candidate.id === speciesId) ?? refuseUnknown(speciesId);
}

/** As `speciesOf`, with the composition of the raw fish and what law says of it. */
export function fishOf(room: Pick<Room, 'catalogue'>, speciesId: string): FishSpecies {
  return room.catalogue.fish.find((candidate) => candidate.scientificName === speciesId) ?? refuseUnknown(speciesId);
}

function refuseUnknown(speciesId: string): never {
  refuseInput(`There is no fish “${speciesId}” in the list of species.`, ['speciesId'], 'Choose the species from the list; its name goes on the label.', 'NOT_FOUND');
}
