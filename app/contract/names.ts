/** Every request name, as plain constants without imports, so that the window's bridge can know them and nothing else. */
export const REQUEST_NAMES = [
  'brine.strength', 'recipe.scale', 'log.judge', 'log.read', 'label.preview',
  'book.status', 'book.propose', 'book.start', 'book.openDemo', 'book.backUp',
  'office.get', 'office.addPerson', 'office.addInstrument', 'office.addSmoker', 'office.addPlace', 'office.saveKitchen',
  'limits.list', 'limits.confirm',
  'fish.species', 'fishLot.receive', 'fishLot.list',
  'recipe.list', 'brine.card', 'batch.make', 'batch.list', 'batch.get', 'soak.log',
  'load.list', 'load.open', 'load.get', 'load.mark', 'readings.enter', 'readings.preview', 'readings.import', 'place.get',
  'batch.verdict', 'lab.record', 'batch.mark', 'batch.decide',
  'stock.list', 'pack.seal', 'pack.list', 'label.forPacks', 'label.printed',
  'line.get', 'record.find', 'record.batch',
] as const;
export type RequestName = (typeof REQUEST_NAMES)[number];

/** What a front itself does for its page; never reaches the back room. */
export const FRONT_NAMES = ['front.chooseFile', 'front.print'] as const;
export type FrontName = (typeof FRONT_NAMES)[number];

/** The one channel for requests and the one for events, in the window. */
export const REQUEST_CHANNEL = 'alderbook:request';
export const EVENT_CHANNEL = 'alderbook:event';
