/** The places, each loaded when it is first opened. */
import { lazy, type ComponentType } from 'react';
import type { PlaceName } from './address.ts';

export const PLACE_VIEWS: Readonly<Record<PlaceName, ComponentType>> = {
  'fish-in': lazy(async () => ({ default: (await import('../places/fish-in/fish-in.tsx')).FishIn })),
  'brine-bench': lazy(async () => ({ default: (await import('../places/brine-bench/brine-bench.tsx')).BrineBench })),
  smokehouse: lazy(async () => ({ default: (await import('../places/smokehouse/smokehouse.tsx')).Smokehouse })),
  'packing-table': lazy(async () => ({ default: (await import('../places/packing-table/packing-table.tsx')).PackingTable })),
  'cold-store': lazy(async () => ({ default: (await import('../places/cold-store/cold-store.tsx')).ColdStore })),
  'record-shelf': lazy(async () => ({ default: (await import('../places/record-shelf/record-shelf.tsx')).RecordShelf })),
  office: lazy(async () => ({ default: (await import('../places/office/office.tsx')).Office })),
};

export const PrintView = lazy(async () => ({ default: (await import('../print/print-view.tsx')).PrintView }));
