import { computed, effect, signal } from '@preact/signals'
import type { StockLot, StockMove } from '../../../geo/model/stock.ts'
import { choose } from '../state/chosen.ts'
import { openFarm } from '../state/farm.ts'
import { newId } from '../state/newId.ts'
import { showPane } from '../state/pane.ts'
import { type Edits, removeRecord } from '../state/steps.ts'

export type MoveKind = StockMove['move']

/** The form that stands in the card's place: a lot that is being entered or changed, or a move of one. */
export type StockForm =
  | { readonly of: 'lot'; readonly lot: StockLot | null }
  | { readonly of: 'move'; readonly lot: StockLot; readonly move: MoveKind; readonly correcting: StockMove | null }

export const stockForm = signal<StockForm | null>(null)

/** What was begun on one farm means nothing on another. */
const farmInHand = computed(() => openFarm.value?.entry.id)
effect(() => {
  farmInHand.value
  stockForm.value = null
})

export function openStockForm(form: StockForm): void {
  stockForm.value = form
  showPane('card')
}

/** Shuts the form and shows the lot's card, or nothing. */
export async function shutStockForm(lot: string | null): Promise<void> {
  stockForm.value = null
  await choose(lot === null ? null : { kind: 'stock_lots', id: lot })
}

/** What each move is called: as a deed, and as done. */
export const MOVE_WORDS: Readonly<Record<MoveKind, { readonly deed: string; readonly done: string }>> = {
  reserved: { deed: 'Reserve', done: 'reserved' },
  sold: { deed: 'Sell', done: 'sold' },
  lifted: { deed: 'Lift', done: 'lifted' },
  lost: { deed: 'Lose', done: 'lost' },
}

export type MoveTold = Pick<StockMove, 'on' | 'move' | 'count' | 'to' | 'due' | 'note'>

export const sayMove = ({ count, move, to, on }: MoveTold, lot: StockLot): string =>
  `${count} ${lot.kind} ${MOVE_WORDS[move].done}${to === null ? '' : ` ${move === 'reserved' ? 'for' : 'to'} ${to}`} on ${on}`

export const newMove = (lot: StockLot, told: MoveTold): Edits => [
  { do: 'add', kind: 'stock_moves', record: { id: newId(), lot: lot.id, ...told, extra: {} } },
]

interface Margin {
  readonly on: string
  readonly reason: string
  readonly lot: StockLot
}

const inMargin = (
  move: StockMove,
  deed: 'changed' | 'removed',
  { on, reason, lot }: Margin,
  now: string | null,
): Edits => [
  {
    do: 'add',
    kind: 'corrections',
    record: {
      id: newId(),
      on,
      kind: 'stock_moves',
      record: move.id,
      deed,
      reason,
      was: sayMove(move, lot),
      now,
      extra: {},
    },
  },
]

/** The edits that put a move right, the reason kept in the margin. */
export function correctedMove(move: StockMove, told: MoveTold, margin: Margin): Edits {
  const to = Object.fromEntries(
    Object.entries(told).filter(([field, value]) => value !== move[field as keyof StockMove]),
  )
  return [
    ...(Object.keys(to).length > 0 ? ([{ do: 'change', kind: 'stock_moves', id: move.id, to }] as const) : []),
    ...inMargin(move, 'changed', margin, sayMove(told, margin.lot)),
  ]
}

export const struckOutMove = (move: StockMove, margin: Margin): Edits => [
  { do: 'remove', kind: 'stock_moves', id: move.id },
  ...inMargin(move, 'removed', margin, null),
]

/** Strikes a lot out with all its moves, as one step. */
export const strikeOutLot = (lot: StockLot) => removeRecord('stock_lots', lot.id, `Strike out the lot ${lot.kind}`)
