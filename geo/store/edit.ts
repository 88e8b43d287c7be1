import type { Geometry } from 'geojson'
import type { AnyRecord } from '../model/kind.ts'
import { kindNamed } from '../model/kinds.ts'
import type { Database } from './database.ts'
import { toEwkb } from './ewkb.ts'
import type { Pace } from './pace.ts'
import { columnsOf, readStored, type StoredRow, toStored } from './row.ts'
import type { Change, Step } from './step.ts'
import { writeStep } from './step.ts'

/** What a person asks to be done to one record. */
export type Edit =
  | { readonly do: 'add'; readonly kind: string; readonly record: AnyRecord }
  | {
      readonly do: 'change'
      readonly kind: string
      readonly id: string
      readonly to: Readonly<Record<string, unknown>>
    }
  | { readonly do: 'remove'; readonly kind: string; readonly id: string }

/** Who acts, when: everything about a step but what it does. */
export type Act = Omit<Step, 'changes' | 'undoes'>

/** Thrown where a record that is to be changed or removed is not there (another step may have removed it meanwhile). */
export class AbsentRecord extends Error {
  override readonly name = 'AbsentRecord'
  readonly record: string

  constructor(kind: string, record: string) {
    super(`${kind} ${record} is not there any more.`)
    this.record = record
  }
}

/**
 * Does a person's edits as one step: all or nothing, journalled. Throws `DatabaseError` where a constraint does not
 * hold, `AbsentRecord`, and what `pace` throws.
 */
export function applyEdits(db: Database, act: Act, edits: readonly Edit[], pace?: Pace): Promise<Step> {
  return db.transaction(async (tx) => {
    const standing = await standingOf(tx, edits)
    const changes = edits.map((edit) => changeOf(edit, standing))
    const step: Step = { ...act, undoes: null, changes }
    await writeStep(tx, await withOrder(tx, step), pace)
    return step
  })
}

/** What the records that are to be changed or removed are now, by kind and id: one question a kind, however many edits. */
type Standing = ReadonlyMap<string, ReadonlyMap<string, StoredRow>>

async function standingOf(tx: Database, edits: readonly Edit[]): Promise<Standing> {
  const ids = new Map<string, string[]>()
  for (const edit of edits) if (edit.do !== 'add') ids.set(edit.kind, [...(ids.get(edit.kind) ?? []), edit.id])
  const standing = new Map<string, ReadonlyMap<string, StoredRow>>()
  for (const [kind, values] of ids) {
    const rows = await readStored(tx, kindNamed(kind), { by: 'id', values })
    standing.set(kind, new Map(rows.map((row) => [String(row.id), row])))
  }
  return standing
}

function changeOf(edit: Edit, standing: Standing): Change {
  const kind = kindNamed(edit.kind)
  if (edit.do === 'add') {
    const known = new Set(columnsOf(kind))
    for (const column of Object.keys(edit.record))
      if (!known.has(column)) throw new Error(`${kind.name} has no column ${column}`)
    return { kind: kind.name, record: edit.record.id, before: null, after: toStored(edit.record) }
  }
  const now = standing.get(edit.kind)?.get(edit.id)
  if (!now) throw new AbsentRecord(kind.name, edit.id)
  if (edit.do === 'remove') return { kind: kind.name, record: edit.id, before: now, after: null }
  const before: Partial<StoredRow> = {}
  const after: Partial<StoredRow> = {}
  for (const [column, value] of Object.entries(edit.to)) {
    const stored = column === 'geom' ? toEwkb(value as Geometry) : value
    if (same(stored, now[column])) continue
    before[column] = now[column] ?? null
    after[column] = stored ?? null
  }
  return { kind: kind.name, record: edit.id, before, after }
}

function same(a: unknown, b: unknown): boolean {
  return a === b || JSON.stringify(a ?? null) === JSON.stringify(b ?? null)
}

/** Gives new records their place among the others now, so that undo and redo put them back in it. */
async function withOrder(tx: Database, step: Step): Promise<Step> {
  const made = step.changes.filter((change) => change.before === null)
  if (made.length === 0) return step
  const numbers = await tx.rows<{ ord: number }>(
    `select nextval('record_order') as ord from generate_series(1, $1::integer)`,
    [made.length],
  )
  made.forEach((change, i) => {
    change.after!.ord ??= numbers[i]!.ord
  })
  return step
}
