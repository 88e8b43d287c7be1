import type { Kind } from '../model/kind.ts'
import type { LonLat } from '../plane/lonLat.ts'
import { type Database, quoted } from '../store/database.ts'
import { readOrigin } from '../store/origin.ts'
import { columnsOf, type StoredRow, TABLES } from '../store/row.ts'
import { type Frames, frame, readFrames, unframed, withoutFirst } from './frames.ts'
import { joined, type Shelf } from './shelf.ts'

/** What a logical copy holds. */
export interface CopyHead {
  readonly format: 'selion-copy'
  readonly version: 1
  /** Counts the farm's copies; the highest is the newest. */
  readonly n: number
  readonly madeMs: number
  /** Clock of the last step that it holds: the log's later ones come on top. */
  readonly clock: string
  /** The schema's migrations when it was made. */
  readonly migrations: readonly string[]
  readonly plane: LonLat | null
}

/** All records of a farm as they are stored, bit for bit, apart from the journal (which the log holds). */
export interface Copy extends CopyHead {
  readonly rows: ReadonlyMap<string, readonly StoredRow[]>
}

interface Slice {
  readonly kind: string
  readonly rows: readonly StoredRow[]
}

const SLOTS = ['base', 'a', 'b'] as const
const SLICE = 2000

/**
 * Writes a copy of all records. A farm's first copy is its base and stays for good: what was brought in with an archive
 * stands in no step. Later ones go over the older of two, so that the newest sound one is never touched. It is made in
 * slices, with `pause` between them: where that says false (somebody has edited), the copy is given up and null comes
 * back.
 */
export async function makeCopy(
  db: Database,
  shelf: Shelf,
  folder: string,
  madeMs: number,
  pause: () => Promise<boolean>,
): Promise<CopyHead | null> {
  const slices: Slice[] = []
  for (const kind of TABLES) {
    let last: StoredRow | undefined
    do {
      const rows = await readSlice(db, kind, last)
      if (rows.length > 0) slices.push({ kind: kind.name, rows })
      last = rows.length === SLICE ? rows.at(-1) : undefined
      if (!(await pause())) return null
    } while (last)
  }
  const [at] = await db.rows<{ clock: string }>('select clock from steps order by clock desc limit 1')
  const migrations = await db.rows<{ name: string }>('select name from migrations order by name')
  const slots = await readSlots(shelf, folder)
  const head: CopyHead = {
    format: 'selion-copy',
    version: 1,
    n: (slots[0]?.head.n ?? 0) + 1,
    madeMs,
    clock: at?.clock ?? '',
    migrations: migrations.map((m) => m.name),
    plane: await readOrigin(db),
  }
  const slot = slots.length === 0 ? 'base' : slots[0]!.slot === 'a' ? 'b' : 'a'
  const name = `${folder}/copy.${slot}`
  await shelf.write(name, frame(head))
  for (const slice of slices) {
    if (!(await pause())) return null
    await shelf.append(name, frame(slice))
  }
  await shelf.append(name, frame({ end: slices.length }))
  return head
}

/**
 * Takes a copy that was made elsewhere of the same records as a farm's first, as made at `madeMs`: what a farm that comes
 * ready-made is kept by. Throws where it is not whole.
 */
export async function takeBase(shelf: Shelf, folder: string, bytes: Uint8Array, madeMs: number): Promise<CopyHead> {
  const made = soundCopy(bytes)
  if (!made) throw new Error('the copy that came with the farm is not whole')
  const head: CopyHead = { ...made.head, madeMs }
  await shelf.write(`${folder}/copy.base`, joined([frame(head), withoutFirst(bytes, made.frames.sound[0]!)]))
  return head
}

/** The sound copies, newest first. One that was given up, or does not agree with its checksums, is not among them. */
export async function readCopies(shelf: Shelf, folder: string): Promise<Copy[]> {
  return (await readSlots(shelf, folder)).map(({ head, frames }) => {
    const rows = new Map<string, StoredRow[]>()
    for (const slice of frames.sound.slice(1, -1).map(unframed) as Slice[]) {
      const of = rows.get(slice.kind)
      if (of) of.push(...slice.rows)
      else rows.set(slice.kind, [...slice.rows])
    }
    return { ...head, rows }
  })
}

interface Slot {
  readonly slot: (typeof SLOTS)[number]
  readonly head: CopyHead
  readonly frames: Frames
}

async function readSlots(shelf: Shelf, folder: string): Promise<Slot[]> {
  const slots: Slot[] = []
  for (const slot of SLOTS) {
    const copy = soundCopy((await shelf.read(`${folder}/copy.${slot}`)) ?? new Uint8Array())
    if (copy) slots.push({ slot, ...copy })
  }
  return slots.sort((a, b) => b.head.n - a.head.n)
}

function soundCopy(bytes: Uint8Array): Omit<Slot, 'slot'> | null {
  const frames = readFrames(bytes)
  const { sound } = frames
  if (frames.spoilt > 0 || frames.torn || sound.length < 2) return null
  const head = unframed(sound[0]!) as CopyHead
  const last = unframed(sound.at(-1)!) as { end?: number }
  return head.format === 'selion-copy' && head.version === 1 && last.end === sound.length - 2 ? { head, frames } : null
}

function readSlice(db: Database, kind: Kind, after: StoredRow | undefined): Promise<StoredRow[]> {
  const columns = columnsOf(kind)
    .map((c) => (c === 'geom' ? `encode(st_asewkb(geom), 'hex') as geom` : quoted(c)))
    .join(', ')
  return db.rows<StoredRow>(
    `select ${columns} from ${quoted(kind.name)} where (ord, id) > ($1::bigint, $2::text) order by ord, id limit ${SLICE}`,
    after ? [after.ord, after.id] : [-1, ''],
  )
}
