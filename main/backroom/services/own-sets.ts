/** The kitchen's own limit sets, and which set decides what. */
import type { Services } from '../service.ts';
import { addOwnSet } from './own-set-making.ts';
import { decideFor, listOwnSets } from './own-set-choice.ts';


export const limitsOfficeServices = { 'limits.own': listOwnSets, 'limits.addSet': addOwnSet, 'limits.decideFor': decideFor } satisfies Services<'limits.own' | 'limits.addSet' | 'limits.decideFor'>;
