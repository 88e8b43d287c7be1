import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Edit } from '../../geo/store/edit.ts'
import type { Ask, DeskEvent, Progress } from '../../src/desk/door.ts'
import { ENGINE } from './harness.ts'
import { addBed, addField, rectangle, wholeOf } from './keepFarm.ts'
import { abandon, makeDesk, type TestDesk } from './keepKeeper.ts'

const on = '2025-07-01'
const NEW = { name: 'An invented farm', units: 'metric', currency: null, timezone: null, origin: null } as const

/** As many beds side by side in an invented field that holds them. */
const ground = (id: string, count: number): Edit => {
  const field = addField(id)
  return {
    ...field,
    record: { ...(field.do === 'add' && field.record), geom: rectangle(0, 0, 10 + count * 1.3, 200) },
  } as Edit
}
const beds = (count: number): Edit[] => Array.from({ length: count }, (_, n) => addBed(`b${n}`, 'f', n))

const bedFile = (count: number) => ({
  type: 'FeatureCollection',
  features: [
    {
      type: 'Feature',
      geometry: rectangle(0, 0, 10 + count * 1.3, 200),
      properties: { kind: 'fields', name: 'Upper' },
    },
    ...Array.from({ length: count }, (_, n) => ({
      type: 'Feature',
      geometry: rectangle(2 + n * 1.3, 3, 0.9, 30),
      properties: { kind: 'beds', field: 'Upper', name: `Strip ${n}` },
    })),
  ],
})

describe.skipIf(ENGINE === 'server')('a step of many records', () => {
  let folder: string
  let files: Map<string, Uint8Array>
  let desk: TestDesk
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'selion-long-'))
    files = new Map()
    desk = await makeDesk(folder, files)
    let nowMs = 1_750_000_000_000
    // Each look at the clock finds it 60 ms on: every piece of the work is told of, and hears a stop.
    Object.assign(desk.keeper, { nowMs: () => (nowMs += 60) })
    await desk.answer('makeFarm', NEW)
  })
  afterEach(async () => {
    abandon(desk)
    await rm(folder, { recursive: true, force: true })
  })

  const edit = (...edits: Edit[]) => desk.ask('edit', { label: 'Edit', edits, on })
  const whole = () => wholeOf(desk.keeper.inHand!.db)
  const written = () => desk.said.flatMap((said) => (said.event === 'progress' ? [said.progress] : []))

  /** Asks, and stops it when so many records are written, or when something is said. */
  async function stoppedAt<N extends 'edit' | 'bringIn' | 'undo' | 'redo'>(
    at: number | ((said: Progress) => boolean),
    name: N,
    ask: Ask<N>,
  ) {
    const isAt = typeof at === 'number' ? ({ done }: Progress) => done >= at : at

    const { say } = desk.keeper
    Object.assign(desk.keeper, {
      say: (event: DeskEvent) => {
        say(event)
        if (event.event === 'progress' && isAt(event.progress)) desk.send({ stop: 7 })
      },
    })
    desk.replies.delete(7)
    desk.send({ n: 7, name, ask })
    await desk.keeper.settled()
    Object.assign(desk.keeper, { say })
    return desk.replies.get(7)
  }

  it('tells how many of its records are written, never fewer than before, and at last all', async () => {
    await edit(ground('f', 600))
    desk.said.length = 0
    expect(await edit(...beds(600))).toMatchObject({ ok: true })
    const done = written().map((progress) => progress.done)
    expect(new Set(written().map(({ of }) => of))).toEqual(new Set([600]))
    expect(done.length).toBeGreaterThanOrEqual(6)
    expect(done).toEqual(done.toSorted((a, b) => a - b))
    expect(done[0]).toBeLessThanOrEqual(100)
    expect(done.at(-1)).toBe(600)
  })

  it('leaves nothing where it is stopped, in the database, the journal and the log, and is kept when asked for again', async () => {
    await edit(ground('f', 600))
    const before = await whole()
    const log = [...files].map(([name, bytes]) => [name, bytes.length])
    const stopped = { ok: false, fault: { kind: 'stopped' } }
    const ask = { label: 'Lay out', edits: beds(600), on }
    expect(await stoppedAt(300, 'edit', ask)).toMatchObject(stopped)
    expect(written().at(-1)!.done).toBeLessThan(600)
    expect(await whole()).toEqual(before)
    expect([...files].map(([name, bytes]) => [name, bytes.length])).toEqual(log)
    expect(await desk.ask('edit', ask)).toMatchObject({ ok: true, value: { history: { undo: 'Lay out' } } })
    const kept = await whole()
    // Taking it back is stopped in the same way.
    expect(await stoppedAt(300, 'undo', { on })).toMatchObject(stopped)
    expect(await whole()).toEqual(kept)
    expect(await desk.ask('undo', { on })).toMatchObject({ ok: true, value: { history: { redo: 'Lay out' } } })
    expect(await stoppedAt(300, 'redo', { on })).toMatchObject(stopped)
    expect(await desk.answer('listRecords', { kind: 'beds' })).toEqual([])
  })

  it('stays kept where it is stopped only after that', async () => {
    await edit(ground('f', 600))
    const isKept = ({ doing }: Progress) => doing === 'showing what is kept'
    expect(await stoppedAt(isKept, 'edit', { label: 'Lay out', edits: beds(600), on })).toMatchObject({ ok: true })
    expect(await desk.answer('listRecords', { kind: 'beds' })).toHaveLength(600)
  })

  it('brings in a file of many, or nothing of it; a farm without ground gets its origin with the step that is kept', async () => {
    const bytes = new TextEncoder().encode(JSON.stringify(bedFile(500)))
    const files = [{ name: 'strips.geojson', bytes }]
    const { layers } = await desk.answer('lookIntoFile', { files, grid: null, columns: null })
    const ask = {
      plans: layers.map(({ plan }) => plan),
      replaces: false,
      acceptsOutside: false,
      label: 'Bring in strips.geojson',
      on,
    }
    const before = await whole()
    expect(await stoppedAt(200, 'bringIn', ask)).toMatchObject({ ok: false, fault: { kind: 'stopped' } })
    expect(await whole()).toEqual(before)
    const { changed, leftOut } = await desk.answer('bringIn', ask)
    expect(leftOut).toEqual([])
    // 500 beds, their field, and the farm's origin.
    expect(changed.records).toHaveLength(502)
    const [farm] = await desk.answer('listRecords', { kind: 'farm' })
    expect(farm!.origin_lon).toBeCloseTo(8.03, 1)
    expect(written().at(-1)).toMatchObject({ done: 502, of: 502 })
  })

  it('names the one record that lies wrongly among many, keeps none, and forgets nothing of the farm’s place', async () => {
    const wrong = addBed('out', 'f', 1)
    const out = { ...wrong, record: { ...(wrong.do === 'add' && wrong.record), geom: rectangle(-9, 0, 5, 5) } } as Edit
    const many = [ground('f', 300), ...beds(250), out, ...beds(300).slice(250)]
    expect(await edit(...many)).toMatchObject({
      ok: false,
      fault: { kind: 'constraint', record: 'out', field: 'geom', accept: { outside_accepted: true } },
    })
    expect(await desk.answer('listRecords', { kind: 'fields' })).toEqual([])
    await edit(ground('f', 300))
    const [farm] = await desk.answer('listRecords', { kind: 'farm' })
    expect(farm!.origin_lon).toBeCloseTo(8.03, 1)
    // A step that also moves the field's edge is looked at when all of it is done.
    const wider = { do: 'change', kind: 'fields', id: 'f', to: { geom: rectangle(-20, 0, 500, 200) } } as const
    expect(await edit(out, ...beds(150), wider)).toMatchObject({ ok: true })
  })
})
