/** Every text on screen and on paper, by language; one language so far. A place's texts are in its own file. */
import { brineBench } from './en/brine-bench.ts';
import { coldStore } from './en/cold-store.ts';
import { firstScreen } from './en/first-screen.ts';
import { fishIn } from './en/fish-in.ts';
import { frame, parts } from './en/frame.ts';
import { office } from './en/office.ts';
import { packingTable } from './en/packing-table.ts';
import { print } from './en/print.ts';
import { ingredients, recipes } from './en/recipes.ts';
import { recordShelf } from './en/record-shelf.ts';
import { smokehouse } from './en/smokehouse.ts';
import { taste } from './en/taste.ts';
import { verdict } from './en/verdict.ts';

export const words = {
  frame, parts, firstScreen, fishIn, brineBench, recipes, ingredients, taste, smokehouse, verdict, packingTable, coldStore, recordShelf, office, print,
} as const;
