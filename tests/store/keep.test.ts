import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { makeCopy, readCopies, takeBase } from '../../geo/keep/copies.ts'
import { rebuild } from '../../geo/keep/rebuild.ts'
import { reconcile } from '../../geo/keep/reconcile.ts'
import { replay } from '../../geo/keep/replay.ts'
import { memoryShelf } from '../../geo/keep/shelf.ts'
import { openLog, type StepLog } from '../../geo/keep/stepLog.ts'
import type { Database } from '../../geo/store/database.ts'
import type { Step } from '../../geo/store/step.ts'
import { openTestDatabase, SERVER_ABSENT } from './harness.ts'
import { actor, addBed, addField, farmRecord, logged, ORIGIN, wholeOf } from './keepFarm.ts'

const always = async () => true

describe.skipIf(SERVER_ABSENT)('a farm kept beside its database', () => {
  const files = new Map<string, Uint8Array>()
  const shelf = memoryShelf(files)
  let db: Database
  let log: StepLog
  let whole: Record<string, unknown>
  let last: Step
  let after: Map<string, Uint8Array>

  beforeAll(async () => {
    db = await openTestDatabase(ORIGIN)
    log = await openLog(shelf, 'farm')
    const person = actor(db)
    await log.append([{ plane: ORIGIN }])
    const take = async (step: Step) => {
      last = step
      await log.append([logged(step)])
    }
    await take(await person.edit('make the farm', farmRecord))
    await take(await person.edit('draw a field', addField('f1')))
    await take(await person.edit('lay out beds', ...Array.from({ length: 40 }, (_, n) => addBed(`b${n}`, 'f1', n))))
    await take(await person.edit('rename', { do: 'change', kind: 'beds', id: 'b3', to: { name: 'Third' } }))
    expect(await makeCopy(db, shelf, 'farm', 1000, always)).toMatchObject({ n: 1, plane: [...ORIGIN] })
    log.turn()
    await take(await person.edit('remove', { do: 'remove', kind: 'beds', id: 'b7' }))
    await take(await person.edit('retire', { do: 'change', kind: 'beds', id: 'b9', to: { retired: '2024-10-01' } }))
    await take(await person.undo())
    await take(await person.undo())
    await take(await person.redo())
    expect(await makeCopy(db, shelf, 'farm', 2000, always)).toMatchObject({ n: 2 })
    log.turn()
    await take(await person.undo())
    await take(await person.edit('one more bed', addBed('b50', 'f1', 50)))
    whole = await wholeOf(db)
    after = new Map(files)
  })
  afterAll(() => db?.close())

  /** Rebuilds from what is left on a shelf into a database of its own, and looks at all that it holds. */
  async function rebuiltFrom(left: Map<string, Uint8Array>) {
    const other = await openTestDatabase()
    try {
      const kept = memoryShelf(left)
      const how = await rebuild(other, kept, 'farm', await openLog(kept, 'farm'))
      const next = await actor(other, 1_700_000_999_000).edit('and on', addBed('b60', 'f1', 60))
      return { how, whole: await withoutStep(other, next.id) }
    } finally {
      await other.close()
    }
  }
  async function withoutStep(other: Database, id: string) {
    await other.transaction(async (tx) => {
      await tx.rows(`select set_config('selion.step', 'test', true)`)
      await tx.rows(`delete from beds where id = 'b60'`)
      await tx.rows('delete from steps where id = $1', [id])
    })
    return wholeOf(other)
  }
  const spoil = (name: string) => {
    const left = new Map(after)
    const bytes = left.get(name)!.slice()
    const at = Math.floor(bytes.length / 2)
    bytes[at] = bytes[at]! ^ 0x55
    return left.set(name, bytes)
  }

  it('is made anew bit for bit from the newest copy and the steps behind it, journal and undo included', async () => {
    const { how, whole: now } = await rebuiltFrom(new Map(after))
    expect(how).toEqual({ copyMs: 2000, steps: 2, failed: [], spoilt: 0 })
    expect(now).toEqual(whole)
  })

  it('is made anew from the older copy where the newest is spoilt', async () => {
    const { how, whole: now } = await rebuiltFrom(spoil('farm/copy.a'))
    expect(how).toEqual({ copyMs: 1000, steps: 7, failed: [], spoilt: 0 })
    expect(now).toEqual(whole)
  })

  it('is made anew from its steps alone where no copy is left', async () => {
    const left = new Map(after)
    left.delete('farm/copy.a')
    left.delete('farm/copy.base')
    const { how, whole: now } = await rebuiltFrom(left)
    expect(how).toEqual({ copyMs: null, steps: 11, failed: [], spoilt: 0 })
    expect(now).toEqual(whole)
  })

  it('keeps its records where the oldest segment of the log is gone, and says so in the journal only', async () => {
    const left = new Map(after)
    left.delete('farm/steps-000001')
    const { how, whole: now } = await rebuiltFrom(left)
    expect(how).toMatchObject({ copyMs: 2000, failed: [] })
    for (const kind of ['farm', 'fields', 'beds', 'plans']) expect(now[kind]).toEqual(whole[kind])
  })

  it('gives a copy up when somebody edits, and leaves the sound ones alone', async () => {
    const left = new Map(after)
    const kept = memoryShelf(left)
    let slices = 0
    expect(await makeCopy(db, kept, 'farm', 3000, async () => ++slices < 23)).toBeNull()
    const sound = await readCopies(kept, 'farm')
    expect(sound[0]).toMatchObject({ n: 2, madeMs: 2000 })
    for (const n of [3, 4]) expect(await makeCopy(db, kept, 'farm', 1000 * n, always)).toMatchObject({ n })
    expect((await readCopies(kept, 'farm')).map((copy) => copy.n)).toEqual([4, 3, 1])
  })

  it('takes a copy that came with a farm as its first, made now, and none that is cut short or spoilt', async () => {
    const came = new Map<string, Uint8Array>()
    await makeCopy(db, memoryShelf(came), 'elsewhere', 0, always)
    const bytes = came.get('elsewhere/copy.base')!
    const kept = memoryShelf()
    const { clock } = await takeBase(kept, 'farm', bytes, 5000)
    const [copy] = await readCopies(kept, 'farm')
    expect(copy).toMatchObject({ n: 1, madeMs: 5000, clock, plane: [...ORIGIN] })
    const [made] = await readCopies(memoryShelf(new Map([['farm/copy.base', bytes]])), 'farm')
    expect(copy!.rows).toEqual(made!.rows)
    // Of 40 beds one was removed and brought back; one more was added.
    expect(copy!.rows.get('beds')).toHaveLength(41)
    const spoilt = bytes.slice()
    spoilt[spoilt.length - 20]! ^= 1
    for (const wrong of [bytes.slice(0, -3), spoilt, new Uint8Array()])
      await expect(takeBase(kept, 'farm', wrong, 6000)).rejects.toThrow('not whole')
    expect(await readCopies(kept, 'farm')).toEqual([copy])
  })

  it('puts steps into the log that the end kept from it', async () => {
    const left = new Map(after)
    const name = [...left.keys()].filter((key) => key.includes('/steps-')).at(-1)!
    left.set(name, left.get(name)!.slice(0, -5))
    const cut = await openLog(memoryShelf(left), 'farm')
    expect((await cut.read(1)).steps.map((step) => step.id)).not.toContain(last.id)
    expect(await reconcile(db, cut)).toEqual([])
    expect((await cut.read(1)).steps.at(-1)).toEqual(last)
    const lost = await openLog(memoryShelf(), 'farm')
    expect(await reconcile(db, lost)).toEqual([])
    expect(await lost.read(1)).toEqual({ ...(await log.read(1)), after: null })
  })

  it('tells the confirmed steps that a database lacks, and does them again', async () => {
    const behind = await openTestDatabase(ORIGIN)
    try {
      const { steps } = await log.read(1)
      expect(await replay(behind, steps.slice(0, 6))).toEqual([])
      const missing = await reconcile(behind, await openLog(memoryShelf(new Map(after)), 'farm'))
      expect(missing).toEqual(steps.slice(6))
      expect(await replay(behind, missing)).toEqual([])
      expect(await wholeOf(behind)).toEqual(whole)
    } finally {
      await behind.close()
    }
  })
})
