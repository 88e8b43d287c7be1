import type { Pick } from '../../../geo/model/picks.ts'
import type { Share } from '../../../geo/model/shares.ts'
import type { Edits } from '../state/steps.ts'
import type { PlaceFields } from './pickPlace.ts'
import type { ShareLine } from './shareParts.ts'

/** What a person told of a pick. */
export interface PickTold {
  readonly on: string
  readonly place: PlaceFields
  readonly quantity: number
  readonly unit: string
  readonly picker: string | null
  readonly grade: string | null
  readonly note: string | null
  readonly shares: readonly ShareLine[]
}

/** A pick as it is kept, with its shares. */
export interface PickKept {
  readonly pick: Pick
  readonly shares: readonly Share[]
}

/** Why a pick is put right or struck out: on which day, the reason, and the pick in words before and after. */
export interface Margin {
  readonly on: string
  readonly reason: string
  readonly was: string
  readonly now: string | null
}

const asShares = (pick: string, lines: readonly ShareLine[], newId: () => string): Edits =>
  lines.map(({ to, part, use }) => ({
    do: 'add',
    kind: 'shares',
    record: { id: newId(), pick, to, part, use, extra: {} },
  }))

const fieldsOf = ({ place, shares: _, ...told }: PickTold) => ({ ...told, ...place })

/** The edits that keep a new pick; the desk gives it the weight of its unit. */
export function newPick(told: PickTold, newId: () => string): Edits {
  const id = newId()
  return [
    { do: 'add', kind: 'picks', record: { id, ...fieldsOf(told), extra: {} } },
    ...asShares(id, told.shares, newId),
  ]
}

const inMargin = (pick: string, deed: 'changed' | 'removed', margin: Margin, newId: () => string): Edits => [
  {
    do: 'add',
    kind: 'corrections',
    record: { id: newId(), kind: 'picks', record: pick, deed, ...margin, extra: {} },
  },
]

/** The edits that put a pick right. What did not change is not written, so the weight that was used stays with its unit. */
export function correctedPick(kept: PickKept, told: PickTold, margin: Margin, newId: () => string): Edits {
  const { pick } = kept
  const to = Object.fromEntries(
    Object.entries(fieldsOf(told)).filter(([field, value]) => value !== pick[field as keyof Pick]),
  )
  const sameShares =
    kept.shares.length === told.shares.length &&
    told.shares.every((line, i) => {
      const share = kept.shares[i]!
      return share.to === line.to && share.part === line.part && share.use === line.use
    })
  return [
    ...(Object.keys(to).length > 0 ? ([{ do: 'change', kind: 'picks', id: pick.id, to }] as const) : []),
    ...(sameShares ? [] : [...removedShares(kept), ...asShares(pick.id, told.shares, newId)]),
    ...inMargin(pick.id, 'changed', margin, newId),
  ]
}

/** The edits that strike a pick out, with its shares; the margin tells that it was there and why it is not. */
export function struckOut(kept: PickKept, margin: Margin, newId: () => string): Edits {
  return [
    ...removedShares(kept),
    { do: 'remove', kind: 'picks', id: kept.pick.id },
    ...inMargin(kept.pick.id, 'removed', margin, newId),
  ]
}

const removedShares = ({ shares }: PickKept): Edits => shares.map(({ id }) => ({ do: 'remove', kind: 'shares', id }))
