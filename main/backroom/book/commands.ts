/** Commands already answered: a repeated one gets the first answer and changes nothing. */
import { Refusal } from '../refusal.ts';
import { canonicalJson, sha256Hex } from './canonical.ts';
import type { Connection } from './connection.ts';

/** A command as it was asked. */
export interface AskedCommand {
  readonly commandId: string;
  readonly name: string;
  /** The parsed input. */
  readonly input: unknown;
}

export interface Commands {
  /** The first answer to this command, or undefined; refuses with CONFLICT when the id was used for something else. */
  answered(command: AskedCommand): { readonly reply: unknown } | undefined;
  /** Keeps the answer; inside the command's own transaction. */
  keep(command: AskedCommand, reply: unknown, nowMs: number): void;
}

export function openCommands(database: Connection): Commands {
  const find = database.prepare<[string], { name: string; input_digest: string; reply: string }>('SELECT name, input_digest, reply FROM commands WHERE command_id = ?');
  const insert = database.prepare<[string, string, string, string, number]>('INSERT INTO commands (command_id, name, input_digest, reply, answered_at_ms) VALUES (?, ?, ?, ?, ?)');
  return {
    answered({ commandId, name, input }) {
      const row = find.get(commandId);
      if (row === undefined) return undefined;
      if (row.name !== name || row.input_digest !== digestOf(input)) {
        throw new Refusal('CONFLICT', 'This was sent before with other contents.', { remedy: 'Look at what is in the book now, then enter it again.' });
      }
      return { reply: JSON.parse(row.reply) as unknown };
    },
    keep({ commandId, name, input }, reply, nowMs) {
      insert.run(commandId, name, digestOf(input), JSON.stringify(reply), nowMs);
    },
  };
}

function digestOf(input: unknown): string {
  return sha256Hex(canonicalJson(input));
}
