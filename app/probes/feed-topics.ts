/**
 * Topics of MQTT and the filters that name several: levels between slashes, `+` for any one level, `#` at the end for
 * all that follow (OASIS, MQTT Version 3.1.1, 4.7, 2014; from memory).
 */
import { bad, good, type Outcome } from '../measures/outcome.ts';

const LONGEST_TOPIC = 300;

/** Whether a text can be a topic filter, with a sentence where it can't. */
export function readTopicFilter(filter: string): Outcome<string> {
  const fault = faultOfText(filter);
  if (fault !== undefined) return fault;
  const levels = filter.split('/');
  if (levels.some((level) => level.includes('+') && level !== '+')) {
    return bad(`“+” stands for a whole level, and can’t be part of one, as in “${filter}”.`, undefined, 'Put it between slashes, such as lodge/+/temperature.');
  }
  if (levels.some((level, index) => level.includes('#') && (level !== '#' || index !== levels.length - 1))) {
    return bad(`“#” stands for all that follows, and can only be the last level, not as in “${filter}”.`, undefined, 'Put it at the end behind a slash, such as lodge/#.');
  }
  return good(filter);
}

/** Whether a text can be one topic, without wildcards. */
export function readTopic(topic: string): Outcome<string> {
  const fault = faultOfText(topic);
  if (fault !== undefined) return fault;
  return /[+#]/.test(topic) ? bad(`“${topic}” has a wildcard; a thermometer has a topic of its own.`, undefined, 'Write the whole topic, without + and #.') : good(topic);
}

function faultOfText(text: string): { readonly ok: false; readonly problem: { readonly message: string } } | undefined {
  if (text === '') return bad('The topic is empty.', undefined, 'Write what the device sends under, such as lodge/smoker/1.');
  if (text.length > LONGEST_TOPIC) return bad('The topic is too long.', undefined, `Write at most ${LONGEST_TOPIC} characters.`);
  if (text.includes('\0')) return bad('The topic holds a character that can’t be in one.', undefined, 'Type it again.');
  return undefined;
}

/** Whether a topic falls under a filter; topics that begin with `$` are the broker's own and fall under no wildcard in front. */
export function isUnder(topic: string, filter: string): boolean {
  const levels = topic.split('/');
  const wanted = filter.split('/');
  if (topic.startsWith('$') && (wanted[0] === '+' || wanted[0] === '#')) return false;
  for (const [index, want] of wanted.entries()) {
    if (want === '#') return true;
    const level = levels[index];
    if (level === undefined || (want !== '+' && want !== level)) return false;
  }
  return levels.length === wanted.length;
}
