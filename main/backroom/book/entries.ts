/** The append-only record: entries without gaps, each carrying the digest of the one before it. */
import type { Entry } from '../../../app/contract/requests/record.ts';
import type { EntryDraft } from '../room.ts';
import { canonicalJson, sha256Hex } from './canonical.ts';
import type { Connection } from './connection.ts';

/** Who acts, through what, and when: what the book adds to an entry. */
export interface Author {
  readonly personId: string | null;
  readonly initials: string;
  readonly device: string;
  readonly commandId: string | null;
  nowMs(): number;
  newId(): string;
}

/** The readings an entry vouches for. */
export interface Covered {
  readonly count: number;
  readonly digest: string;
}

/** One row as it lies in the file. */
export interface EntryRow {
  readonly sequence: number;
  readonly id: string;
  readonly entered_at_ms: number;
  readonly happened_at_ms: number | null;
  readonly kind: string;
  readonly subject_id: string;
  readonly person_id: string | null;
  readonly person: string;
  readonly device: string;
  readonly command_id: string | null;
  readonly summary: string;
  readonly why: string;
  readonly before_json: string;
  readonly after_json: string;
  readonly readings_count: number;
  readonly readings_digest: string;
  readonly digest_before: string;
  readonly digest: string;
}

export interface Entries {
  /** The number the next entry gets. */
  nextSequence(): number;
  /** @returns the entry's number */
  append(draft: EntryDraft, author: Author, covered: Covered): number;
  about(subjectIds: readonly string[]): Entry[];
}

/** What stands before the first entry. */
export const FIRST_DIGEST = '0'.repeat(64);

const INSERT = `INSERT INTO entries (sequence, id, entered_at_ms, happened_at_ms, kind, subject_id, person_id, person, device,
  command_id, summary, why, before_json, after_json, readings_count, readings_digest, digest_before, digest)
VALUES (@sequence, @id, @entered_at_ms, @happened_at_ms, @kind, @subject_id, @person_id, @person, @device,
  @command_id, @summary, @why, @before_json, @after_json, @readings_count, @readings_digest, @digest_before, @digest)`;

export function openEntries(database: Connection): Entries {
  const last = database.prepare<[], { sequence: number; digest: string }>('SELECT sequence, digest FROM entries ORDER BY sequence DESC LIMIT 1');
  const insert = database.prepare<[EntryRow]>(INSERT);
  const about = database.prepare<[string], EntryRow>(
    'SELECT * FROM entries WHERE subject_id IN (SELECT value FROM json_each(?)) ORDER BY sequence',
  );
  return {
    nextSequence: () => (last.get()?.sequence ?? 0) + 1,
    append(draft, author, covered) {
      const before = last.get();
      const row = {
        sequence: (before?.sequence ?? 0) + 1,
        id: author.newId(),
        entered_at_ms: author.nowMs(),
        happened_at_ms: draft.happenedAtMs,
        kind: draft.kind.toWellFormed(),
        subject_id: draft.subjectId.toWellFormed(),
        person_id: author.personId,
        person: author.initials.toWellFormed(),
        device: author.device.toWellFormed(),
        command_id: author.commandId?.toWellFormed() ?? null,
        summary: draft.summary.toWellFormed(),
        why: (draft.why ?? '').toWellFormed(),
        before_json: canonicalJson(draft.before),
        after_json: canonicalJson(draft.after),
        readings_count: covered.count,
        readings_digest: covered.digest,
        digest_before: before?.digest ?? FIRST_DIGEST,
      };
      insert.run({ ...row, digest: digestOfEntry(row) });
      return row.sequence;
    },
    about: (subjectIds) => about.all(JSON.stringify(subjectIds)).map(entryFromRow),
  };
}

/** The SHA-256 of the canonical JSON of everything an entry says, the digest before it among it. */
export function digestOfEntry(row: Omit<EntryRow, 'digest'>): string {
  return sha256Hex(canonicalJson({
    sequence: row.sequence,
    id: row.id,
    enteredAtMs: row.entered_at_ms,
    happenedAtMs: row.happened_at_ms,
    kind: row.kind,
    subjectId: row.subject_id,
    personId: row.person_id,
    person: row.person,
    device: row.device,
    commandId: row.command_id,
    summary: row.summary,
    why: row.why,
    before: JSON.parse(row.before_json) as unknown,
    after: JSON.parse(row.after_json) as unknown,
    readings: { count: row.readings_count, digest: row.readings_digest },
    digestBefore: row.digest_before,
  }));
}

function entryFromRow(row: EntryRow): Entry {
  return {
    sequence: row.sequence,
    id: row.id,
    enteredAtMs: row.entered_at_ms,
    happenedAtMs: row.happened_at_ms,
    kind: row.kind,
    subjectId: row.subject_id,
    person: row.person,
    device: row.device,
    summary: row.summary,
    why: row.why,
    digest: row.digest,
  };
}
