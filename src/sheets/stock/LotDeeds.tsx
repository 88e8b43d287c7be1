import { useState } from 'preact/hooks'
import type { StockLot, StockMove } from '../../../geo/model/stock.ts'
import { inOrder } from '../../../geo/stock/lotOnDay.ts'
import { Dialog } from '../../ui/Dialog.tsx'
import { OneOf } from '../picking/PickDetails.tsx'
import { showDay } from '../show/dates.ts'
import { showCount } from '../show/figures.ts'
import { choose } from '../state/chosen.ts'
import { farmMap } from '../state/mapHandle.ts'
import { doEdits } from '../state/steps.ts'
import { lots, movesByLot } from '../state/stock.ts'
import { on } from '../state/where.ts'
import { MOVE_WORDS, type MoveKind, openStockForm, sayMove, strikeOutLot, struckOutMove } from './stockEntry.ts'

const DEEDS: readonly MoveKind[] = ['reserved', 'sold', 'lifted', 'lost']

/** What becomes of plants of a lot, each a tap. */
export function LotMoves({ id }: { readonly id: string }) {
  const lot = lots.value?.find((one) => one.id === id)
  if (!lot) return null
  return (
    <div class="lot-moves">
      {DEEDS.map((move) => (
        <button key={move} type="button" onClick={() => openStockForm({ of: 'move', lot, move, correcting: null })}>
          {MOVE_WORDS[move].deed}
        </button>
      ))}
    </div>
  )
}

/** What can be done to a lot from its card: its moves, each put right or struck out, and the lot itself. */
export function LotDeeds({ id }: { readonly id: string }) {
  const lot = lots.value?.find((one) => one.id === id)
  const [striking, setStriking] = useState<'lot' | StockMove | null>(null)
  if (!lot) return null
  const moved = [...inOrder(movesByLot.value.get(id) ?? [])].reverse()
  return (
    <>
      {moved.length > 0 && (
        <section aria-label="Moves">
          <h3>What became of it</h3>
          <ul class="moves">
            {moved.map((move) => (
              <li key={move.id}>
                <span>
                  <strong>
                    {showCount(move.count)} {move.move}
                  </strong>
                  {move.to === null ? '' : ` ${move.move === 'reserved' ? 'for' : 'to'} ${move.to}`}, {showDay(move.on)}
                  {move.on > on.value && ' (still to come)'}
                  {move.due === null ? '' : `, wanted ${showDay(move.due)}`}
                  {move.note === null ? '' : `: ${move.note}`}
                </span>
                <span class="move-deeds">
                  <button
                    type="button"
                    class="quiet"
                    aria-label={`Put right: ${sayMove(move, lot)}`}
                    onClick={() => openStockForm({ of: 'move', lot, move: move.move, correcting: move })}
                  >
                    Put right
                  </button>
                  <button
                    type="button"
                    class="quiet"
                    aria-label={`Strike out: ${sayMove(move, lot)}`}
                    onClick={() => setStriking(move)}
                  >
                    Strike out
                  </button>
                </span>
              </li>
            ))}
          </ul>
        </section>
      )}
      <p class="deeds">
        <button
          type="button"
          onClick={() =>
            farmMap.value?.fitTo(lot.row !== null ? { kind: 'rows', id: lot.row } : { kind: 'beds', id: lot.bed! })
          }
        >
          Find<span class="unseen"> on the map</span>
        </button>
        <button type="button" onClick={() => openStockForm({ of: 'lot', lot })}>
          Change
        </button>
        <button type="button" onClick={() => setStriking('lot')}>
          Strike out
        </button>
      </p>
      {striking === 'lot' && <StrikeLot lot={lot} moved={moved.length} onClose={() => setStriking(null)} />}
      {striking !== null && striking !== 'lot' && (
        <StrikeMove lot={lot} move={striking} onClose={() => setStriking(null)} />
      )}
    </>
  )
}

interface StrikeLotProps {
  readonly lot: StockLot
  readonly moved: number
  readonly onClose: () => void
}

function StrikeLot({ lot, moved, onClose }: StrikeLotProps) {
  const [fault, setFault] = useState<string | null>(null)
  const strike = async () => {
    const reply = await strikeOutLot(lot)
    if (!reply.ok) setFault(reply.fault.detail)
    else void choose(null)
  }
  return (
    <Dialog title={`Strike out ${lot.kind}?`} onClose={onClose}>
      <p>
        The lot goes{moved > 0 ? `, with its ${showCount(moved)} ${moved === 1 ? 'move' : 'moves'}` : ''}. Undo brings
        it back.
      </p>
      {fault !== null && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
      <p class="deeds">
        <button type="button" class="first-deed" onClick={() => void strike()}>
          Strike it out
        </button>
      </p>
    </Dialog>
  )
}

const WHY = ['told twice', 'called off', 'wrong lot'] as const

interface StrikeMoveProps {
  readonly lot: StockLot
  readonly move: StockMove
  readonly onClose: () => void
}

function StrikeMove({ lot, move, onClose }: StrikeMoveProps) {
  const [reason, setReason] = useState<string | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const strike = async () => {
    if (reason === null || reason.trim() === '') {
      setFault('Say why it is struck out.')
      return
    }
    const margin = { on: on.value, reason: reason.trim(), lot }
    const reply = await doEdits(`Strike out: ${sayMove(move, lot)}`, struckOutMove(move, margin))
    if (!reply.ok) setFault(reply.fault.detail)
    else onClose()
  }
  return (
    <Dialog title="Strike this out?" onClose={onClose}>
      <p>{sayMove(move, lot)}. What it said and why it was struck out stays written; undo brings it back.</p>
      <OneOf label="Why" known={WHY} value={reason} onTell={setReason} />
      {fault !== null && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
      <p class="deeds">
        <button type="button" class="first-deed" onClick={() => void strike()}>
          Strike it out
        </button>
      </p>
    </Dialog>
  )
}
