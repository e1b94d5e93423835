/** Every request name, as plain constants without imports, so that the window's bridge can know them and nothing else. */
export const REQUEST_NAMES = [
  'brine.strength', 'recipe.scale', 'log.judge', 'log.read', 'label.preview',
  'book.status', 'book.propose', 'book.start', 'book.openDemo', 'book.backUp',
  'office.get', 'office.addPerson', 'office.addInstrument', 'office.addSmoker', 'office.addPlace', 'office.saveKitchen',
  'limits.list', 'limits.confirm', 'limits.own', 'limits.addSet', 'limits.decideFor',
  'paper.list', 'paper.file', 'paper.add', 'paper.strike', 'scheduled.save', 'scheduled.forBatch', 'batch.useScheduled',
  'fish.species', 'fishLot.receive', 'fishLot.list',
  'recipe.list', 'recipe.versions', 'recipe.save', 'recipe.export', 'recipe.import', 'ingredient.list', 'ingredient.save',
  'taste.list', 'taste.get', 'taste.start', 'taste.add', 'taste.strike', 'taste.float', 'taste.keep',
  'brine.card', 'batch.make', 'batch.list', 'batch.get',
  'brine.mend', 'brine.mended', 'soak.forecast', 'soak.sample', 'soak.log',
  'load.list', 'load.open', 'load.get', 'load.mark', 'load.takeOut', 'readings.enter', 'readings.preview', 'readings.import', 'place.get', 'series.get',
  'alarms.list', 'alarms.acknowledge', 'paperSheet.list', 'paperSheet.number', 'point.moveInstrument',
  'corrective.open', 'corrective.verify', 'corrective.list', 'record.review', 'batch.weigh', 'load.ready',
  'batch.verdict', 'lab.record', 'batch.mark', 'batch.decide',
  'instrument.list', 'instrument.check', 'doubt.list', 'doubt.decide', 'fishLot.correct', 'batch.correct', 'worklist.get', 'worklist.done',
  'stock.list', 'pack.seal', 'pack.list', 'label.forPacks', 'label.printed', 'label.choice', 'label.choose', 'label.saveStock', 'label.mark', 'label.kept', 'label.prints',
  'portion.get', 'portion.close', 'pack.find', 'pack.move', 'pack.stock', 'tray.list', 'tray.make', 'tray.mark', 'place.verdict',
  'guest.list', 'guest.save', 'handOver.prepare', 'handOver.make', 'handOver.get', 'handOver.list',
  'line.get', 'record.find', 'record.batch',
  'trace.find', 'trace.get', 'complaint.list', 'complaint.add', 'complaint.close', 'ingredientLot.list', 'ingredientLot.receive', 'ingredientLot.use', 'ingredientLot.correct',
  'recall.list', 'recall.get', 'recall.start', 'recall.found', 'recall.reached', 'recall.finish', 'export.traceability', 'export.readings',
  'feed.list', 'feed.save', 'feed.switch', 'feed.password', 'feed.try',
] as const;
export type RequestName = (typeof REQUEST_NAMES)[number];

/** What a front itself does for its page; never reaches the back room. */
export const FRONT_NAMES = ['front.chooseFile', 'front.print', 'front.keepAwake'] as const;
export type FrontName = (typeof FRONT_NAMES)[number];

/** The one channel for requests and the one for events, in the window. */
export const REQUEST_CHANNEL = 'alderbook:request';
export const EVENT_CHANNEL = 'alderbook:event';
