/** Whether a check applies to a batch. What is not known is never taken in the batch's favour. */
import { compareDecimals, decimalFrom } from './decimals.ts';
import type { JudgeCase } from './judge-case.ts';
import type { Conditions } from './limit-set.ts';
import { batchSpan, isValidOver } from './on-file.ts';
import { listText } from './words.ts';

/** `contradicted`: does not apply. `not-given`: nothing contradicts it, but something is not known. */
export interface Fit {
  readonly fit: 'holds' | 'contradicted' | 'not-given';
  /** For people: what contradicts, or what is not known; empty when it holds. */
  readonly why: string;
}

/** The nitrite range that earns a relaxed rule (21 CFR 172.177; Code of Maine Rules 01-001 chapter 359 § 2; read). */
const LEAST_PPM = '100';
const MOST_PPM = '200';

/** Compares conditions with what is known of the batch. */
export function fitOf(conditions: Conditions | undefined, judged: JudgeCase): Fit {
  if (conditions === undefined) return { fit: 'holds', why: '' };
  const parts = [
    processFit(conditions, judged), speciesFit(conditions, judged), packFit(conditions, judged), storeFit(conditions, judged),
    nitriteFit(conditions, judged), cureFit(conditions, judged), thawFit(conditions, judged), dryFit(conditions, judged), varianceFit(conditions, judged),
  ];
  const contradiction = parts.find((part) => part.fit === 'contradicted');
  if (contradiction !== undefined) return contradiction;
  const unknown = parts.filter((part) => part.fit === 'not-given').map((part) => part.why);
  return unknown.length === 0 ? HOLDS : { fit: 'not-given', why: `not known: ${listText(unknown)}` };
}

/** Scientific names in one writing. */
export function isSpecies(name: string, list: readonly string[]): boolean {
  const plain = name.trim().replace(/\s+/g, ' ').toLowerCase();
  return list.some((entry) => entry.toLowerCase() === plain);
}

const HOLDS: Fit = { fit: 'holds', why: '' };

function decide(known: boolean, holds: boolean, contradiction: string, unknown: string): Fit {
  if (!known) return { fit: 'not-given', why: unknown };
  return holds ? HOLDS : { fit: 'contradicted', why: contradiction };
}

function processFit({ process }: Conditions, judged: JudgeCase): Fit {
  return process === undefined ? HOLDS : decide(true, process === judged.process, `this batch is ${judged.process} smoked`, '');
}

function speciesFit({ species, notSpecies }: Conditions, judged: JudgeCase): Fit {
  if (species === undefined && notSpecies === undefined) return HOLDS;
  const name = judged.species;
  if (name === undefined || name.trim() === '') return { fit: 'not-given', why: 'the species' };
  const holds = (species === undefined || isSpecies(name, species)) && (notSpecies === undefined || !isSpecies(name, notSpecies));
  return decide(true, holds, `${name.trim()} is none of its species`, '');
}

function packFit({ pack }: Conditions, judged: JudgeCase): Fit {
  if (pack === undefined) return HOLDS;
  const words = { vacuum: 'vacuum packed', air: 'air packed', unpacked: 'not packed' } as const;
  return judged.pack === undefined ? { fit: 'not-given', why: 'the pack' } : decide(true, pack.includes(judged.pack), `the fish is ${words[judged.pack]}`, '');
}

function storeFit({ store }: Conditions, judged: JudgeCase): Fit {
  if (store === undefined) return HOLDS;
  return decide(judged.store !== undefined, store === judged.store, `the fish is kept ${judged.store === 'frozen' ? 'frozen' : 'chilled'}`, 'how it is kept');
}

function nitriteFit({ nitrite }: Conditions, judged: JudgeCase): Fit {
  if (nitrite === undefined) return HOLDS;
  const measured = measuredNitrite(judged);
  if (nitrite === 'found') {
    if (measured.some((ppm) => compareDecimals(ppm, decimalFrom('0')) > 0) || judged.facts?.nitriteUsed === true) return HOLDS;
    return decide(allMeasured(judged) || judged.facts?.nitriteUsed === false, false, 'no nitrite was found', 'the nitrite');
  }
  const outside = measured.some((ppm) => compareDecimals(ppm, decimalFrom(LEAST_PPM)) < 0 || compareDecimals(ppm, decimalFrom(MOST_PPM)) > 0);
  return decide(outside || allMeasured(judged), !outside, `nitrite is not within ${LEAST_PPM} to ${MOST_PPM} ppm`, 'the nitrite');
}

function measuredNitrite(judged: JudgeCase) {
  return judged.saltSamples.flatMap(({ nitritePpm }) => (nitritePpm === undefined ? [] : [decimalFrom(nitritePpm)]));
}

function allMeasured(judged: JudgeCase): boolean {
  return judged.saltSamples.length > 0 && judged.saltSamples.every((sample) => sample.nitritePpm !== undefined);
}

function cureFit({ cure }: Conditions, judged: JudgeCase): Fit {
  if (cure === undefined) return HOLDS;
  return decide(judged.facts?.cure !== undefined, judged.facts?.cure === cure, `the fish was ${judged.facts?.cure === 'dry' ? 'dry salted' : 'brined'}`, 'whether it was brined or dry salted');
}

function thawFit({ wasFrozen }: Conditions, judged: JudgeCase): Fit {
  if (wasFrozen === undefined) return HOLDS;
  return decide(judged.facts?.wasFrozen !== undefined, judged.facts?.wasFrozen === wasFrozen, 'the fish was never frozen', 'whether it was frozen');
}

function dryFit({ driedApart }: Conditions, judged: JudgeCase): Fit {
  if (driedApart === undefined) return HOLDS;
  return decide(judged.facts?.driedApart !== undefined, judged.facts?.driedApart === driedApart, 'the fish was dried in the chamber itself', 'whether it was dried apart from the chamber');
}

/** A variance is known by the fact, or by the papers on file: then one must have been valid when the batch was made. */
function varianceFit({ withoutVariance }: Conditions, judged: JudgeCase): Fit {
  if (withoutVariance !== true) return HOLDS;
  const { variance = varianceOnFile(judged) } = judged.facts ?? {};
  return decide(variance !== undefined, variance === false, 'a variance is on file', 'a variance');
}

function varianceOnFile(judged: JudgeCase): boolean | undefined {
  const onFile = judged.facts?.onFile;
  const span = batchSpan(judged);
  if (onFile === undefined) return undefined;
  return onFile.some((record) => record.what === 'variance' && span !== undefined && isValidOver(record, span));
}
