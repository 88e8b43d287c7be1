import type { StockMove } from '../model/stock.ts'
import { MASS_UNITS } from '../model/weigh.ts'
import { liftedTooMany } from '../stock/diedInGround.ts'
import type { Draft } from './archive.ts'
import type { Index } from './checkReferences.ts'
import { type Faults, shown } from './faults.ts'

/** Days of which the second may not come before the first. */
const IN_ORDER: Readonly<Record<string, readonly [first: string, second: string]>> = {
  beds: ['made', 'retired'],
  trees: ['planted', 'removed'],
  supports: ['put_up', 'taken_down'],
  plantings: ['set_out', 'cleared'],
}

/** Looks at each record by itself and beside those it refers to: days in order, one place, stretches, shares, stock. */
export function checkRecords(drafts: readonly Draft[], index: Index, faults: Faults): void {
  for (const draft of drafts) {
    checkDays(draft, faults)
    if (draft.kind.name === 'plantings') checkPlanting(draft, index, faults)
    if (draft.kind.name === 'crops') checkUsual(draft, faults)
    if (draft.kind.name === 'siting_plans') checkJson(draft, ['asked', 'answer'], faults)
    if (draft.kind.name === 'stock_lots') checkOneOf(draft, ['bed', 'row'], faults)
  }
  checkContainers(of(drafts, 'containers'), faults)
  checkShares(of(drafts, 'shares'), index, faults)
  checkMoves(of(drafts, 'stock_moves'), index, faults)
}

const of = (drafts: readonly Draft[], kind: string) => drafts.filter((draft) => draft.kind.name === kind)

function checkDays(draft: Draft, faults: Faults): void {
  const order = IN_ORDER[draft.kind.name]
  if (!order) return
  const [first, second] = [draft.record[order[0]], draft.record[order[1]]]
  if (typeof first === 'string' && typeof second === 'string' && second < first)
    faults.of(draft, order[1], `${second} is before ${order[0]}, ${first}`)
}

function checkJson(draft: Draft, names: readonly string[], faults: Faults): void {
  for (const name of names) {
    const told = draft.record[name]
    if (typeof told === 'string' && !isJsonObject(told)) faults.of(draft, name, 'is no JSON object')
  }
}

function isJsonObject(text: string): boolean {
  try {
    const value: unknown = JSON.parse(text)
    return typeof value === 'object' && value !== null && !Array.isArray(value)
  } catch {
    return false
  }
}

function checkOneOf(draft: Draft, names: readonly string[], faults: Faults): void {
  if (names.some((name) => draft.record[name] !== null || draft.unread.has(name))) return
  faults.of(draft, names[0]!, `is missing, and so is ${names.slice(1).join(' and ')}: one must be given`)
}

function checkPlanting(draft: Draft, index: Index, faults: Faults): void {
  checkOneOf(draft, ['row', 'bed'], faults)
  const { row, bed, from_m, to_m } = draft.record
  if (typeof from_m === 'number' && typeof to_m === 'number' && from_m >= to_m)
    faults.of(draft, 'to_m', `${to_m} is not beyond from_m, ${from_m}`)
  const rowBed = typeof row === 'string' ? index.get('rows')!.get(row)?.record.bed : null
  if (typeof bed === 'string' && typeof rowBed === 'string' && bed !== rowBed && !draft.unread.has('bed'))
    faults.of(draft, 'bed', `is ${shown(bed)}, but its row ${shown(row)} lies in bed ${shown(rowBed)}`)
}

function checkUsual(draft: Draft, faults: Faults): void {
  const { yield_low_kg_per_m2: low, yield_high_kg_per_m2: high } = draft.record
  if (typeof low === 'number' && typeof high === 'number' && high < low)
    faults.of(draft, 'yield_high_kg_per_m2', `${high} is below yield_low_kg_per_m2, ${low}`)
}

function checkContainers(containers: readonly Draft[], faults: Faults): void {
  const known = new Map<string, Draft>()
  for (const draft of containers) {
    const { unit, crop, kg } = draft.record
    if (draft.unread.has('unit') || draft.unread.has('crop')) continue
    const key = JSON.stringify([unit, crop])
    const earlier = known.get(key)
    if (earlier)
      faults.of(draft, 'unit', `${shown(unit)} has a weight for ${cropText(crop)} on ${earlier.where} already`)
    else known.set(key, draft)
    const mass = MASS_UNITS.get(unit as string)
    if (mass !== undefined && mass !== kg)
      faults.of(draft, 'unit', `${shown(unit)} is a unit of mass: it is ${mass} kg always`)
  }
}

const cropText = (crop: unknown) => (crop === null ? 'every crop' : `crop ${shown(crop)}`)

function checkShares(shares: readonly Draft[], index: Index, faults: Faults): void {
  const given = new Map<string, number>()
  for (const draft of shares) {
    const { pick, part } = draft.record
    if (typeof pick !== 'string' || typeof part !== 'number' || !index.get('picks')!.has(pick)) continue
    const sum = (given.get(pick) ?? 0) + part
    given.set(pick, sum)
    if (sum > 1 + 1e-9)
      faults.of(
        draft,
        'part',
        `brings the shares of pick ${shown(pick)} to ${Number(sum.toPrecision(6))}, above the whole of it`,
      )
  }
}

/** A plant can be sold or lost once, and lifted once; a lifted plant may be sold too, a reserved one is still there. */
function checkMoves(moves: readonly Draft[], index: Index, faults: Faults): void {
  const done = new Map<string, { gone: number; lifted: number }>()
  for (const draft of moves) {
    const { lot, move, count } = draft.record
    if (typeof lot !== 'string' || typeof count !== 'number') continue
    const held = index.get('stock_lots')!.get(lot)?.record.count
    if (typeof held !== 'number') continue
    const sums = done.get(lot) ?? { gone: 0, lifted: 0 }
    done.set(lot, sums)
    if (move === 'sold' || move === 'lost') sums.gone += count
    if (move === 'lifted') sums.lifted += count
    const over = move === 'lifted' ? sums.lifted > held : (move === 'sold' || move === 'lost') && sums.gone > held
    if (over)
      faults.of(
        draft,
        'count',
        `brings the plants ${move === 'lifted' ? 'lifted' : 'sold and lost'} of lot ${shown(lot)} to ${move === 'lifted' ? sums.lifted : sums.gone}, of ${held}`,
      )
    if (move === 'reserved' && count > held)
      faults.of(draft, 'count', `reserves ${count} plants of lot ${shown(lot)}, which holds ${held}`)
  }
  for (const [lot, { gone, lifted }] of done) {
    const held = index.get('stock_lots')!.get(lot)!.record.count as number
    if (gone <= held && lifted <= held) checkLifted(lot, held, moves, faults)
  }
}

/** Plants that died in the ground can't be lifted later. */
function checkLifted(lot: string, held: number, moves: readonly Draft[], faults: Faults): void {
  const own = moves.filter(
    ({ record: { lot: of, on, count }, unread }) =>
      of === lot && typeof on === 'string' && typeof count === 'number' && !unread.has('on') && !unread.has('move'),
  )
  const over = liftedTooMany(
    held,
    own.map(({ record }) => record as unknown as StockMove),
  )
  if (!over) return
  const { on, more, died } = over
  const blamed = own.findLast(({ record }) => record.on === on && ['lifted', 'lost'].includes(record.move as string))!
  faults.of(
    blamed,
    'count',
    `has ${more} more plants of lot ${shown(lot)} lifted on ${on} than stood: ${held} were raised and ${died} had died in the ground`,
  )
}
