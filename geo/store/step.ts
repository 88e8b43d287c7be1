import type { Kind } from '../model/kind.ts'
import { kindNamed } from '../model/kinds.ts'
import { type Database, quoted } from './database.ts'
import { noPause, type Pace } from './pace.ts'
import { planOnce } from './planOnce.ts'
import { columnsOf, insertStored, openStep, type StoredRow, sqlTypeOf } from './row.ts'

/** What happened to one record: made (no before), removed (no after), or changed (only the fields that changed). */
export interface Change {
  readonly kind: string
  readonly record: string
  readonly before: Partial<StoredRow> | null
  readonly after: Partial<StoredRow> | null
}

/** One act of one person, as journalled. `undoes`: the step that this one takes back. */
export interface Step {
  readonly id: string
  readonly clock: string
  readonly device: string
  readonly author: string | null
  readonly label: string
  readonly undoes: string | null
  readonly changes: readonly Change[]
}

/**
 * Writes a step and its journal in the open transaction: the one way by which farm records change, for edits, undo,
 * redo and rebuilding alike. Throws `DatabaseError` where a constraint does not hold, and what `pace` throws; it is told
 * of changes done.
 */
export async function writeStep(tx: Database, step: Step, pace: Pace = noPause): Promise<void> {
  await planOnce(tx)
  await doChanges(tx, step.id, step.changes, pace)
  await tx.rows('insert into steps (id, clock, device, author, label, undoes) values ($1, $2, $3, $4, $5, $6)', [
    step.id,
    step.clock,
    step.device,
    step.author,
    step.label,
    step.undoes,
  ])
  await writeChanges(tx, step, pace)
}

/** The part of a step that touches the farm's records, without its place in the journal. */
export async function doChanges(
  tx: Database,
  id: string,
  changes: readonly Change[],
  pace: Pace = noPause,
): Promise<void> {
  await openStep(tx, id)
  if (onlyMakes(changes)) await tx.rows(`set constraints ${OF_PLACES} immediate`)
  let done = 0
  for (const run of runsOf(changes))
    for (let from = 0; from < run.changes.length; from += AT_ONCE) {
      const some = run.changes.slice(from, from + AT_ONCE)
      await writeRun(tx, { ...run, changes: some })
      done += some.length
      await pace(done, changes.length)
    }
  await tx.rows('set constraints all immediate')
}

/** How many records are written between two breaths. */
const AT_ONCE = 100

/** The slow checks, of what must lie within what. */
const OF_PLACES = 'bed_within_field, row_along_bed, stretch_within_row'

/**
 * True where a step does nothing but make records: each is there only after what it lies in, which stays as it is, so
 * that the checks of places find the same at once as at the end, and take no long statement of their own.
 */
const onlyMakes = (changes: readonly Change[]) =>
  changes.every(({ before, kind }) => before === null || kind === 'farm')

/** What takes changes back: the last first, each the other way round. */
export function backward(changes: readonly Change[]): Change[] {
  return changes.map(({ kind, record, before, after }) => ({ kind, record, before: after, after: before })).reverse()
}

async function writeChanges(tx: Database, { id, changes }: Step, pace: Pace): Promise<void> {
  const batch = 2000
  for (let from = 0; from < changes.length; from += batch) {
    const rows = changes.slice(from, from + batch).map((change, i) => ({ n: from + i, ...change }))
    await tx.rows(
      `insert into changes (step, n, kind, record, before, after)
       select $1, x.n, x.kind, x.record, nullif(x.before, 'null'), nullif(x.after, 'null')
       from jsonb_to_recordset($2::jsonb) as x(n integer, kind text, record text, before jsonb, after jsonb)`,
      [id, JSON.stringify(rows)],
    )
    await pace(changes.length, changes.length)
  }
}

interface Run {
  readonly kind: string
  readonly act: 'make' | 'change' | 'remove'
  readonly changes: Change[]
}

/** Neighbouring changes of one kind and act, so that they can be written together. */
function runsOf(changes: readonly Change[]): Run[] {
  const runs: Run[] = []
  for (const change of changes) {
    const act = change.before === null ? 'make' : change.after === null ? 'remove' : 'change'
    const last = runs.at(-1)
    if (last && last.kind === change.kind && last.act === act) last.changes.push(change)
    else runs.push({ kind: change.kind, act, changes: [change] })
  }
  return runs
}

async function writeRun(tx: Database, run: Run): Promise<void> {
  const kind = kindNamed(run.kind)
  if (run.act === 'make')
    return insertStored(
      tx,
      kind,
      run.changes.map((change) => change.after as StoredRow),
    )
  if (run.act === 'remove') {
    const ids = run.changes.map((change) => change.record)
    const gone = await tx.rows(`delete from ${quoted(kind.name)} where id = any($1) returning id`, [ids])
    if (gone.length !== ids.length)
      throw new Error(`${ids.length} ${kind.name} were to be removed, ${gone.length} were there`)
    return
  }
  for (const group of alikeOf(run.changes)) await writeGroup(tx, kind, group)
}

/** Neighbouring changes of the same columns, each of a record of its own, so that one statement writes them. */
function alikeOf(changes: readonly Change[]): { columns: string[]; changes: Change[] }[] {
  const groups: { columns: string[]; changes: Change[] }[] = []
  let records = new Set<string>()
  for (const change of changes) {
    const columns = Object.keys(change.after!).filter((column) => column !== 'id')
    const last = groups.at(-1)
    if (last && last.columns.join() === columns.join() && !records.has(change.record)) last.changes.push(change)
    else {
      groups.push({ columns, changes: [change] })
      records = new Set()
    }
    records.add(change.record)
  }
  return groups.filter(({ columns }) => columns.length > 0)
}

async function writeGroup(
  tx: Database,
  kind: Kind,
  { columns, changes }: { readonly columns: readonly string[]; readonly changes: readonly Change[] },
): Promise<void> {
  const known = new Set(columnsOf(kind))
  for (const column of columns) if (!known.has(column)) throw new Error(`${kind.name} has no column ${column}`)
  const shape = columns.map((c) => `${quoted(c)} ${sqlTypeOf(kind, c)}`).join(', ')
  const sets = columns.map((c) => `${quoted(c)} = x.${quoted(c)}${c === 'geom' ? '::geometry' : ''}`).join(', ')
  const batch = 2000
  for (let from = 0; from < changes.length; from += batch) {
    const some = changes.slice(from, from + batch)
    const done = await tx.rows<{ id: string }>(
      `update ${quoted(kind.name)} t set ${sets}
       from jsonb_to_recordset($1::jsonb) as x(id text, ${shape}) where t.id = x.id returning t.id`,
      [JSON.stringify(some.map(({ record, after }) => ({ ...after, id: record })))],
    )
    if (done.length === some.length) continue
    const there = new Set(done.map(({ id }) => id))
    const missing = some.find(({ record }) => !there.has(record))
    throw new Error(`${kind.name} ${missing?.record} was to be changed but is not there`)
  }
}
