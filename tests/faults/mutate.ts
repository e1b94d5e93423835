/** Breaks bytes: pieces cut out, put in, doubled, turned, or taken from another file. */

const PIECES = [',', ';', '\t', '|', '"', '""', '\n', '\r', '\r\n', '\n\n', '-', '+', '.', ':', '0', '9', '999.9', '1e9', 'OL', '---', '°', 'F', 'C', 'T', 'Z', '\u0000', '\u0001', '\uFEFF', 'Time', '2026', '7/4/2026', '12:60', '24:00', '31.02.2026', '=1+1', ' ', '\u00A0'];
/** What a workbook's XML is made of. */
const TAGS = ['<c r="A1"', '<c r="XFD1048576"><v>1</v></c>', '<row r="9"', '<row r="999999999">', '</row>', '</c>', '<v>', '</v>', '<f>A1</f>', 't="s"', 't="d"', 't="e"', 't="zz"', 's="99"', 's="1"', '<is><t>', '&amp;', '&#65;', '&x;', '<!--', ']]>', '<![CDATA[', '<?', '<sheet name="', 'date1904="1"', 'r:id="rId9"', '"', "'", '>', '<', '/', '1e308', '-1', '62.799999999999997', '\u0000'];

/** @param kind what pieces are put in */
export function mutate(whole: readonly Uint8Array[], random: (below: number) => number, kind: 'text' | 'xml' = 'text'): Uint8Array {
  const pieces = kind === 'text' ? PIECES : TAGS;
  let bytes = whole[random(whole.length)] ?? new Uint8Array();
  // XML that is broken twice is hardly ever read to its end.
  for (let times = kind === 'text' ? 1 + random(5) : 1; times > 0; times -= 1) {
    const at = random(bytes.length + 1);
    const end = Math.min(bytes.length, at + random(24));
    const way = random(8);
    if (way === 0) bytes = joined(bytes.subarray(0, at), bytes.subarray(end));
    else if (way === 1) bytes = joined(bytes.subarray(0, at), Uint8Array.from({ length: 1 + random(4) }, () => random(256)), bytes.subarray(at));
    else if (way === 2) bytes = joined(bytes.subarray(0, end), bytes.subarray(at));
    else if (way === 3) bytes = bytes.slice(0, at);
    else if (way === 4) bytes = joined(bytes.subarray(0, at), (whole[random(whole.length)] ?? bytes).subarray(random(2000), 4000));
    else if (way === 5) bytes = bytes.map((byte, index) => (index === at ? byte ^ (1 << random(8)) : byte));
    else bytes = joined(bytes.subarray(0, at), new TextEncoder().encode(pieces[random(pieces.length)]), bytes.subarray(way === 6 ? at : end));
  }
  return bytes;
}

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  parts.reduce((at, part) => {
    all.set(part, at);
    return at + part.length;
  }, 0);
  return all;
}
