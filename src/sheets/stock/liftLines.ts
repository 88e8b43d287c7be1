import { liftingList, type ToLift } from '../../../geo/stock/liftingList.ts'
import { showDay } from '../show/dates.ts'
import { moves, type ShownLot, shownLots } from '../state/stock.ts'
import { on } from '../state/where.ts'

/** A line of the lifting list, with its bed; `where` tells bed and row. */
export interface LiftLine extends ToLift {
  readonly key: string
  readonly where: string
  readonly bed: string | null
}

/** What is to be lifted as on the day shown, by the day it is wanted, and by bed and row within a day. */
export function liftLines(): readonly LiftLine[] {
  const byId = new Map(shownLots.value.map((one) => [one.lot.id, one]))
  const natural = new Intl.Collator(undefined, { numeric: true })
  const lines = liftingList(
    shownLots.value.map(({ lot }) => lot),
    moves.value,
    on.value,
  ).map((line, i): LiftLine => {
    const at = byId.get(line.lot.id)!
    return { ...line, key: `${line.lot.id} ${i}`, where: at.where, bed: at.bed }
  })
  return lines.sort((a, b) => compareDue(a.due, b.due) || natural.compare(a.where, b.where))
}

const compareDue = (a: string | null, b: string | null) =>
  a === b ? 0 : a === null ? 1 : b === null ? -1 : a < b ? -1 : 1

export const dueWords = ({ due }: LiftLine): string => (due === null ? 'No day told' : showDay(due))

export const forWords = ({ is, to, short }: LiftLine): string =>
  [is, to === null ? '' : `${is === 'sold' ? 'to' : 'for'} ${to}`, short > 0 ? `(${short} no longer stand)` : '']
    .filter((words) => words !== '')
    .join(' ')

/** Lots that stand, by bed: until they are lifted the bed can't be dug nor get posts. */
export function blockedBeds(): readonly { readonly bedName: string; readonly lots: readonly ShownLot[] }[] {
  const found = new Map<string, ShownLot[]>()
  for (const one of shownLots.value) {
    if (one.counts.standing === 0) continue
    found.set(one.bedName, [...(found.get(one.bedName) ?? []), one])
  }
  const natural = new Intl.Collator(undefined, { numeric: true })
  return [...found].map(([bedName, lots]) => ({ bedName, lots })).sort((a, b) => natural.compare(a.bedName, b.bedName))
}
