import type { StockMove } from '../model/stock.ts'
import { diedInGround } from './diedInGround.ts'

/** The part of a move that counts are reckoned from. */
export type Move = Pick<StockMove, 'on' | 'move' | 'count' | 'to'>

/** A lot's counts at the end of a day, in plants. */
export interface LotOnDay {
  readonly raised: number
  /** Promised and not sold yet. A sale uses up what was reserved for the same person, or for nobody named. */
  readonly reserved: number
  readonly sold: number
  readonly lifted: number
  readonly lost: number
  /** Neither sold nor lost: raised − sold − lost. */
  readonly left: number
  /** Left and not promised. Below zero where more was promised than is left: plants can die after they are reserved. */
  readonly free: number
  /** Still in the ground: raised − lifted − died in the ground. */
  readonly standing: number
  /** Sold or reserved, and not lifted yet; no more than stand. */
  readonly toLift: number
}

export function lotOnDay(raised: number, moves: readonly Move[], on: string): LotOnDay {
  const until = moves.filter((move) => move.on <= on)
  const sum = (of: Move['move']) => until.reduce((all, { move, count }) => (move === of ? all + count : all), 0)
  const [sold, lifted, lost] = [sum('sold'), sum('lifted'), sum('lost')]
  const reserved = [...reservedFor(until).values()].reduce((all, count) => all + count, 0)
  const left = raised - sold - lost
  const standing = Math.max(0, raised - lifted - diedInGround(until))
  const toLift = Math.min(standing, Math.max(0, sold + reserved - lifted))
  return { raised, reserved, sold, lifted, lost, left, free: left - reserved, standing, toLift }
}

/** What is still promised by these moves, by whom it is for ('' where nobody is named). Within a day promises come first. */
export function reservedFor(moves: readonly Move[]): ReadonlyMap<string, number> {
  const promised = new Map<string, number>()
  for (const { move, to, count } of inOrder(moves)) {
    const key = to ?? ''
    const before = promised.get(key) ?? 0
    if (move === 'reserved') promised.set(key, before + count)
    if (move === 'sold') promised.set(key, before - Math.min(before, count))
  }
  return new Map([...promised].filter(([, count]) => count > 0))
}

const FIRST: Readonly<Record<Move['move'], number>> = { reserved: 0, lifted: 1, sold: 2, lost: 3 }

/** By day; within a day promises, then lifting, sales and losses. */
export function inOrder<M extends Move>(moves: readonly M[]): readonly M[] {
  return [...moves].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : FIRST[a.move] - FIRST[b.move]))
}
