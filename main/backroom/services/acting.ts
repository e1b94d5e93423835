/** Who is acting: a command is always on behalf of a person on duty. */
import type { Person } from '../../../app/contract/requests/office.ts';
import { Refusal } from '../refusal.ts';
import type { BookRoom } from '../room.ts';

/** The person on whose behalf the command runs; refuses with NOT_ALLOWED when nobody was tapped. */
export function actingPerson(room: BookRoom): Person {
  if (room.person !== null) return room.person;
  throw new Refusal('NOT_ALLOWED', 'Nobody is on duty.', { remedy: 'Tap who you are first.' });
}
