/** Every text on screen and on paper, by language; one language so far. A place's texts are in its own file. */
import { alarms } from './en/alarms.ts';
import { brineBench } from './en/brine-bench.ts';
import { chart } from './en/chart.ts';
import { coldStore } from './en/cold-store.ts';
import { feeds } from './en/feeds.ts';
import { firstScreen } from './en/first-screen.ts';
import { fishIn } from './en/fish-in.ts';
import { guestSheet, handOver } from './en/hand-over.ts';
import { frame, parts } from './en/frame.ts';
import { instruments } from './en/instruments.ts';
import { labels } from './en/labels.ts';
import { office } from './en/office.ts';
import { packingTable } from './en/packing-table.ts';
import { paper } from './en/paper.ts';
import { print } from './en/print.ts';
import { ingredients, recipes } from './en/recipes.ts';
import { recordShelf } from './en/record-shelf.ts';
import { smokehouse } from './en/smokehouse.ts';
import { taste } from './en/taste.ts';
import { recall, trace } from './en/trace.ts';
import { verdict } from './en/verdict.ts';
import { detail, doubts, worklist } from './en/worklist.ts';

export const words = {
  frame, parts, chart, alarms, firstScreen, fishIn, brineBench, recipes, ingredients, taste, smokehouse, verdict, packingTable, coldStore, handOver, guestSheet, recordShelf, trace, recall, office, feeds, instruments, worklist, doubts, detail, paper, print, labels,
} as const;
