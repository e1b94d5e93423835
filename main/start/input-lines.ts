/** Lines of standard input as they come, whatever their length. */

/** A line longer than this is not kept; its place is taken by null. */
const LONGEST_LINE_BYTES = 128 * 1024 * 1024;

/**
 * Splits a stream at line feeds only (a line separator inside a JSON text is part of it). The last
 * line needs no line feed; after the last line feed nothing more is a line.
 */
export async function* splitInput(input: AsyncIterable<Uint8Array>): AsyncGenerator<string | null> {
  let parts: Uint8Array[] = [];
  let length = 0;
  let isFirst = true;
  function take(): string | null {
    const whole = length > LONGEST_LINE_BYTES ? null : new TextDecoder('utf-8', { ignoreBOM: !isFirst }).decode(Buffer.concat(parts));
    parts = [];
    length = 0;
    isFirst = false;
    return whole;
  }
  function add(part: Uint8Array): void {
    length += part.byteLength;
    if (length <= LONGEST_LINE_BYTES) parts.push(part);
    else parts = [];
  }
  for await (const chunk of input) {
    let from = 0;
    for (let feed = chunk.indexOf(10); feed >= 0; feed = chunk.indexOf(10, from)) {
      add(chunk.subarray(from, feed));
      yield take();
      from = feed + 1;
    }
    if (from < chunk.byteLength) add(chunk.subarray(from));
  }
  if (length > 0) yield take();
}
