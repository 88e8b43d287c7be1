import { pickWeeks as readPickWeeks } from '../../../geo/cards/pickWeeks.ts'
import { readCard } from '../../../geo/cards/readCard.ts'
import { seasonBook as readBook } from '../../../geo/cards/seasonBook.ts'
import { readLayers } from '../../../geo/layers/readLayers.ts'
import { clearance as readClearance } from '../../../geo/measure/clearance.ts'
import { measure as readMeasures } from '../../../geo/measure/measure.ts'
import { supportRuns as readSupportRuns } from '../../../geo/measure/supportRuns.ts'
import { type Farm, farm as farmKind } from '../../../geo/model/farm.ts'
import { kindNamed } from '../../../geo/model/kinds.ts'
import { type Photo, photos } from '../../../geo/model/photos.ts'
import { recordsOver as readRecordsOver } from '../../../geo/store/recordsOver.ts'
import { readRecords } from '../../../geo/store/row.ts'
import { seasonSpan } from '../../../geo/yield/season.ts'
import { Refusal } from '../refusal.ts'
import { type Answers, farmOf } from './answers.ts'

// Each look is one transaction: on IndexedDB every statement outside of one costs a round of writing.

export const seeLayers: Answers['seeLayers'] = ({ on }, asked) =>
  farmOf(asked).db.transaction((tx) => readLayers(tx, on))

export const measure: Answers['measure'] = ({ on }, asked) => farmOf(asked).db.transaction((tx) => readMeasures(tx, on))

export const clearance: Answers['clearance'] = ({ on }, asked) =>
  farmOf(asked).db.transaction((tx) => readClearance(tx, on))

export const supportRuns: Answers['supportRuns'] = ({ on }, asked) =>
  farmOf(asked).db.transaction((tx) => readSupportRuns(tx, on))

export const pickWeeks: Answers['pickWeeks'] = ({ season }, asked) =>
  farmOf(asked).db.transaction(async (tx) => {
    const [farm] = (await readRecords(tx, farmKind)) as unknown as Farm[]
    const startMonth = farm?.season_start_month ?? 1
    const { from } = seasonSpan(season, startMonth)
    return readPickWeeks(tx, from, seasonSpan(season + 1, startMonth).from)
  })

export const seasonBook: Answers['seasonBook'] = ({ season }, asked) =>
  farmOf(asked).db.transaction(async (tx) => {
    const [farm] = (await readRecords(tx, farmKind)) as unknown as Farm[]
    const days = seasonSpan(season, farm?.season_start_month ?? 1)
    return { ...days, beds: await readBook(tx, days) }
  })

export const seeCard: Answers['seeCard'] = async ({ kind, id, on }, asked) => {
  const card = await farmOf(asked).db.transaction((tx) => readCard(tx, kind, id, on))
  if (!card) throw new Refusal('not found', `${kind} ${id} is not there any more.`, { record: id })
  return card
}

export const recordsWith: Answers['recordsWith'] = ({ kind, by, ids }, asked) => {
  const found = kindNamed(kind)
  if (by !== 'id' && !found.fields[by]?.refers) throw new Refusal('asked wrongly', `${kind} refer to nothing by ${by}`)
  return farmOf(asked).db.transaction((tx) => readRecords(tx, found, { by, values: ids }))
}

export const recordsOver: Answers['recordsOver'] = ({ kind, over, ids }, asked) => {
  const [found, ground] = [kindNamed(kind), kindNamed(over)]
  if (!found.shapes || !ground.shapes)
    throw new Refusal('asked wrongly', `${kind} or ${over} have no place of their own`)
  return farmOf(asked).db.transaction((tx) => readRecordsOver(tx, found, { kind: ground, ids }))
}

export const listRecords: Answers['listRecords'] = ({ kind }, asked) =>
  farmOf(asked).db.transaction((tx) => readRecords(tx, kindNamed(kind)))

export const listPhotos: Answers['listPhotos'] = async (_, asked) =>
  (await farmOf(asked).db.transaction((tx) => readRecords(tx, photos))) as unknown as Photo[]
