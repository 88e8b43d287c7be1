import type { StockLot, StockMove } from '../model/stock.ts'
import { inOrder, lotOnDay } from './lotOnDay.ts'

/** Plants of a lot that are to be lifted for somebody. */
export interface ToLift {
  readonly lot: StockLot
  /** Days since when it is owed: the day of the sale or the promise. */
  readonly on: string
  /** The day it is wanted; null where none was told. */
  readonly due: string | null
  readonly to: string | null
  readonly is: 'sold' | 'reserved'
  readonly count: number
  /** How many of these no longer stand. */
  readonly short: number
}

/**
 * What is sold or reserved by the end of a day and not lifted yet, first what is wanted first. What was lifted counts to
 * what the same person is owed, what is left of it to what is owed first; a promise that was sold is told once, as sold.
 */
export function liftingList(lots: readonly StockLot[], moves: readonly StockMove[], on: string): readonly ToLift[] {
  const ofLot = new Map<string, StockMove[]>()
  for (const move of moves) {
    if (move.on > on) continue
    const list = ofLot.get(move.lot)
    if (list) list.push(move)
    else ofLot.set(move.lot, [move])
  }
  return lots.flatMap((lot) => ofOneLot(lot, ofLot.get(lot.id) ?? [], on)).sort(wantedFirst)
}

function ofOneLot(lot: StockLot, moves: readonly StockMove[], on: string): ToLift[] {
  const owed: { move: StockMove; count: number }[] = []
  for (const move of inOrder(moves)) {
    if (move.move === 'reserved') owed.push({ move, count: move.count })
    if (move.move !== 'sold') continue
    take(owed, move.count, (one) => one.move === 'reserved' && (one.to ?? '') === (move.to ?? ''))
    owed.push({ move, count: move.count })
  }
  owed.sort((a, b) => (dayWanted(a.move) < dayWanted(b.move) ? -1 : dayWanted(a.move) > dayWanted(b.move) ? 1 : 0))
  let over = 0
  for (const { move, to, count } of moves) {
    if (move !== 'lifted') continue
    over += to === null ? count : take(owed, count, (one) => one.to === to)
  }
  take(owed, over, () => true)
  let { standing } = lotOnDay(lot.count, moves, on)
  return owed
    .filter(({ count }) => count > 0)
    .map(({ move, count }) => {
      const there = Math.min(standing, count)
      standing -= there
      const is = move.move as 'sold' | 'reserved'
      return { lot, on: move.on, due: move.due, to: move.to, is, count, short: count - there }
    })
}

/** Takes so many from what fits, in order; returns how many were not to be had. */
function take(owed: { move: StockMove; count: number }[], count: number, fits: (move: StockMove) => boolean): number {
  let wanted = count
  for (const one of owed) {
    if (wanted === 0) break
    if (!fits(one.move)) continue
    const some = Math.min(one.count, wanted)
    one.count -= some
    wanted -= some
  }
  return wanted
}

const dayWanted = ({ due, on }: { readonly due: string | null; readonly on: string }) => due ?? on

const wantedFirst = (a: ToLift, b: ToLift) => {
  if ((a.due === null) !== (b.due === null)) return a.due === null ? 1 : -1
  return dayWanted(a) < dayWanted(b) ? -1 : dayWanted(a) > dayWanted(b) ? 1 : 0
}
