/** What is remembered of files that were taken over: how those of one shape were read, and at which times each began. */
import { createHash } from 'node:crypto';
import type { Stored } from '../book/stored.ts';
import type { BookRoom } from '../room.ts';
import type { NamedPoint } from './column-names.ts';

type Remembered = Stored<'logShapes'>;
export type RememberedShape = Extract<Remembered, { kind: 'shape' }>;
type TakenFile = Extract<Remembered, { kind: 'file' }>;

/** A column of a file and the point it went to. */
export interface TakenColumn {
  readonly name: string;
  readonly point: NamedPoint;
  readonly firstAtMs: number;
}

/** Answers that hold for other files of the same logger; when one was started, and which pass of an hour it was, doesn't. */
const LASTING = /^(?:timeZone|dateOrder|elapsedUnit|sheet|unit(?::\d+)?|role:\d+)$/;

/** How the last file of a shape was read; undefined where there was none. */
export function rememberedShape(room: BookRoom, shape: string): RememberedShape | undefined {
  const found = shape === '' ? undefined : room.book.shelf('logShapes').get(shapeId(shape));
  return found?.kind === 'shape' ? found : undefined;
}

/** Remembers how a file was read and where its columns went; only inside a command. */
export function rememberFile(room: BookRoom, file: { readonly fileId: string; readonly fileName: string; readonly shape: string }, answers: Readonly<Record<string, string>>, columns: readonly TakenColumn[]): void {
  const shelf = room.book.shelf('logShapes');
  const takenAtMs = room.clock.nowMs();
  const { fileName } = file;
  const before = takenFile(room, file.fileId)?.columns ?? [];
  const now = columns.map(({ name, point, firstAtMs }) => ({ name, pointId: point.id, firstAtMs }));
  const others = before.filter((one) => !now.some((each) => each.name === one.name && each.pointId === one.pointId));
  shelf.put({ id: fileKey(file.fileId), kind: 'file', fileName, takenAtMs, columns: [...others, ...now] });
  if (file.shape === '') return;
  shelf.put({
    id: shapeId(file.shape), kind: 'shape', fileName, takenAtMs,
    answers: Object.fromEntries(Object.entries(answers).filter(([id]) => LASTING.test(id))),
    columns: columns.map(({ name, point }) => ({ name, role: roleOf(point), pointName: point.name, instrumentName: point.instrumentName })),
  });
}

/** A column of this very file that is in the book for the same point with other times; undefined where there is none. */
export function takenAtOtherTimes(room: BookRoom, fileId: string, columns: readonly { readonly name: string; readonly pointId: string; readonly firstAtMs: number }[]): { takenAtMs: number; firstAtMs: number } | undefined {
  const file = takenFile(room, fileId);
  for (const one of file?.columns ?? []) {
    const same = columns.find(({ name, pointId }) => name === one.name && pointId === one.pointId);
    if (file !== undefined && same !== undefined && same.firstAtMs !== one.firstAtMs) return { takenAtMs: file.takenAtMs, firstAtMs: one.firstAtMs };
  }
  return undefined;
}

function takenFile(room: BookRoom, fileId: string): TakenFile | undefined {
  const found = room.book.shelf('logShapes').get(fileKey(fileId));
  return found?.kind === 'file' ? found : undefined;
}

function fileKey(fileId: string): string {
  return `file ${fileId}`;
}

function shapeId(shape: string): string {
  return createHash('sha256').update(shape).digest('hex');
}

const ROLES = ['piece', 'chamber', 'room', 'brine', 'store'] as const;

function roleOf({ role }: NamedPoint): RememberedShape['columns'][number]['role'] {
  return ROLES.find((each) => each === role) ?? 'store';
}
