import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { readZip } from '../../geo/exchange/readZip.ts'
import { writeArchive } from '../../geo/exchange/writeArchive.ts'
import { writeZip } from '../../geo/exchange/writeZip.ts'
import type { Edit } from '../../geo/store/edit.ts'
import { readEntry } from '../../src/desk/farm/entry.ts'
import { handOver } from '../../src/desk/farm/letGo.ts'
import { tend } from '../../src/desk/farm/tend.ts'
import { tidy } from '../../src/desk/farm/tidy.ts'
import { ENGINE } from './harness.ts'
import { addBed, addField, rectangle } from './keepFarm.ts'
import { abandon, makeDesk, type TestDesk } from './keepKeeper.ts'

const on = '2025-07-01'
const NEW = { name: 'An invented farm', units: 'metric', currency: null, timezone: null, origin: null } as const

describe.skipIf(ENGINE === 'server')('the desk', () => {
  let folder: string
  let files: Map<string, Uint8Array>
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'selion-desk-'))
    files = new Map()
  })
  afterEach(() => rm(folder, { recursive: true, force: true }))

  const edit = (desk: TestDesk, ...edits: Edit[]) => desk.ask('edit', { label: 'Edit', edits, on })
  const beds = async (desk: TestDesk) => (await desk.answer('listRecords', { kind: 'beds' })).map((bed) => bed.id)

  it('gives a farm its plane with the first shape, and records it in that step', async () => {
    const desk = await makeDesk(folder, files)
    expect(await desk.answer('makeFarm', NEW)).toMatchObject({ origin: null, farm: { origin_lon: null } })
    expect(await edit(desk, addField('f'))).toMatchObject({ ok: true, value: { measured: { fields: [{ id: 'f' }] } } })
    const { entry } = desk.keeper.inHand!
    const { farm, origin, history } = await desk.answer('openFarm', { id: entry.id, takeOver: false })
    // The middle of the field: 100 m east and north of the invented origin.
    expect(origin![0]).toBeCloseTo(8.0312345678901 + 100 / (111_320 * Math.cos((47.41 * Math.PI) / 180)), 4)
    expect([farm.origin_lon, farm.origin_lat]).toEqual([...origin!])
    expect(history).toEqual({ undo: 'Edit', redo: null })
    await desk.answer('undo', { on })
    expect(await desk.answer('openFarm', { id: entry.id, takeOver: false })).toMatchObject({
      origin,
      farm: { origin_lon: null },
      history: { undo: null, redo: 'Edit' },
    })
    await edit(desk, addField('g'))
    expect(await desk.answer('openFarm', { id: entry.id, takeOver: false })).toMatchObject({
      farm: { origin_lon: origin![0] },
    })
    const [area] = (await desk.answer('measure', { on })).fields
    expect(area!.area_m2).toBeCloseTo(40_000, 1)
    abandon(desk)
  })

  it('is made anew where the database is gone, from what stands beside it', async () => {
    const desk = await makeDesk(folder, files)
    const { entry } = await desk.answer('makeFarm', NEW)
    await edit(desk, addField('f'))
    await edit(desk, addBed('b1', 'f', 1), addBed('b2', 'f', 2))
    await desk.answer('remove', { things: [{ kind: 'beds', id: 'b1' }], label: 'Remove', on })
    const before = await desk.answer('measure', { on })
    const layers = await desk.answer('seeLayers', { on })
    abandon(desk)
    await rm(join(folder, 'opfs', `${entry.id}-1`, 'PG_VERSION'))
    const again = await makeDesk(folder, files)
    const { notices, history } = await again.answer('openFarm', { id: entry.id, takeOver: false })
    expect(notices[0]).toMatch(/PG_VERSION is gone.*made anew from the copy of .* and 3 steps after it.*Nothing/)
    expect(history).toEqual({ undo: 'Remove', redo: null })
    expect(await again.answer('measure', { on })).toEqual(before)
    expect(await again.answer('seeLayers', { on })).toEqual(layers)
    expect(await readdir(join(folder, 'opfs'))).toEqual([`${entry.id}-1`, `${entry.id}-2`])
    for (let data = 2; data <= 4; data++) {
      abandon(again)
      await rm(join(folder, 'opfs', `${entry.id}-${data}`, 'PG_VERSION'))
      await again.answer('openFarm', { id: entry.id, takeOver: false })
      expect(await beds(again)).toEqual(['b2'])
    }
    expect(await readdir(join(folder, 'opfs'))).toEqual([3, 4, 5].map((data) => `${entry.id}-${data}`))
    abandon(again)
  })

  it('says so where nothing is left to make a farm from, and leaves what there is', async () => {
    const desk = await makeDesk(folder, files)
    const { entry } = await desk.answer('makeFarm', NEW)
    abandon(desk)
    await rm(join(folder, 'opfs', `${entry.id}-1`, 'PG_VERSION'))
    for (const name of files.keys()) if (!name.includes('/entry')) files.delete(name)
    expect(await desk.ask('openFarm', { id: entry.id, takeOver: false })).toMatchObject({
      ok: false,
      fault: { kind: 'storage', detail: expect.stringMatching(/PG_VERSION is gone.*nothing was kept/) },
    })
    expect(await readdir(join(folder, 'opfs'))).toEqual([`${entry.id}-1`])
  })

  it('keeps nothing of a step that the log has no room for, says what to do, and goes on when there is room', async () => {
    let room = true
    const desk = await makeDesk(folder, files, {
      shelf: (shelf) => ({
        ...shelf,
        append: (name, bytes) =>
          room ? shelf.append(name, bytes) : Promise.reject(new DOMException('full', 'QuotaExceededError')),
      }),
    })
    const { entry } = await desk.answer('makeFarm', NEW)
    await edit(desk, addField('f'))
    await edit(desk, addBed('b1', 'f', 1))
    const before = await desk.answer('seeLayers', { on })
    room = false
    const refused = {
      ok: false,
      fault: { kind: 'storage', detail: expect.stringMatching(/no room.*not kept.*archive/) },
    }
    expect(await edit(desk, addBed('b2', 'f', 2))).toMatchObject(refused)
    const rename = { do: 'change', kind: 'beds', id: 'b1', to: { name: 'Other' } } as const
    expect(await edit(desk, rename, { do: 'remove', kind: 'fields', id: 'f' })).toMatchObject({ ok: false })
    expect(await edit(desk, rename, addBed('b3', 'f', 3))).toMatchObject(refused)
    expect(await desk.ask('undo', { on })).toMatchObject(refused)
    expect(desk.said).not.toContainEqual(expect.objectContaining({ event: 'lost' }))
    expect(await desk.answer('seeLayers', { on })).toEqual(before)
    const { history } = await desk.answer('openFarm', { id: entry.id, takeOver: false })
    expect(history).toEqual({ undo: 'Edit', redo: null })
    room = true
    // The same entry once more: kept once.
    await edit(desk, addBed('b2', 'f', 2))
    expect(await beds(desk)).toEqual(['b1', 'b2'])
    abandon(desk)
    await rm(join(folder, 'opfs'), { recursive: true })
    const again = await makeDesk(folder, files)
    await again.answer('openFarm', { id: entry.id, takeOver: false })
    expect(await beds(again)).toEqual(['b1', 'b2'])
    abandon(again)
  })

  it('refuses a step before it begins where there is no room for it, and names that where the database stops', async () => {
    let room = true
    const desk = await makeDesk(folder, files, { hasRoom: async () => room })
    const { entry } = await desk.answer('makeFarm', NEW)
    room = false
    expect(await edit(desk, addField('f'))).toMatchObject({ fault: { detail: expect.stringMatching(/no room/) } })
    room = true
    expect(await edit(desk, addField('f'))).toMatchObject({ ok: true })
    room = false
    await desk.keeper.inHand!.db.close()
    vi.spyOn(console, 'error').mockImplementationOnce(() => undefined)
    expect(await desk.ask('seeLayers', { on })).toMatchObject({ ok: false })
    expect(desk.said.at(-1)).toMatchObject({ event: 'lost', why: expect.stringMatching(/stopped for lack of room/) })
    room = true
    await desk.answer('openFarm', { id: entry.id, takeOver: false })
    expect((await desk.answer('listRecords', { kind: 'fields' })).map(({ id }) => id)).toEqual(['f'])
    abandon(desk)
  })

  it('gives a farm up to another tab when the edit in hand is confirmed', async () => {
    const desk = await makeDesk(folder, files)
    const { entry } = await desk.answer('makeFarm', NEW)
    const editing = edit(desk, addField('f'))
    await handOver(desk.keeper, entry.id)
    expect(await editing).toMatchObject({ ok: true })
    expect(desk.said.at(-1)).toMatchObject({ event: 'lost' })
    expect(await edit(desk, addField('g'))).toMatchObject({ fault: { kind: 'not found' } })
    const other = await makeDesk(folder, files)
    expect(await other.answer('openFarm', { id: entry.id, takeOver: false })).toMatchObject({ notices: [] })
    expect(await other.answer('listRecords', { kind: 'fields' })).toHaveLength(1)
    expect(await desk.ask('openFarm', { id: entry.id, takeOver: false })).toMatchObject({ fault: { kind: 'locked' } })
    abandon(other)
  })

  const taken = async (desk: Awaited<ReturnType<typeof makeDesk>>) =>
    new Uint8Array(await (await desk.answer('takeArchive', {})).zip.arrayBuffer())

  it('brings an archive and takes the same one, photos included, also after it was made anew', async () => {
    const farm = {
      id: 'farm',
      name: 'Brought',
      origin_lon: null,
      origin_lat: null,
      timezone: null,
      units: 'us',
      currency: 'USD',
      season_start_month: 3,
      extra: { motto: 'invented' },
    } as const
    const add = addField('f')
    const record = add.do === 'add' ? add.record : null
    const content = {
      farm,
      origin: null,
      records: new Map([['fields', [record!]]]),
      photos: new Map([['p.png', Uint8Array.of(1, 2, 3)]]),
    }
    const zip = writeZip(writeArchive(content))
    const desk = await makeDesk(folder, files)
    const { entry, history } = await desk.answer('bringArchive', { name: 'a.zip', bytes: zip, partial: false })
    expect(history).toEqual({ undo: null, redo: null })
    expect(await taken(desk)).toEqual(zip)
    abandon(desk)
    await rm(join(folder, 'opfs', `${entry.id}-1`), { recursive: true })
    await desk.answer('openFarm', { id: entry.id, takeOver: false })
    expect(readZip(await taken(desk)).files).toEqual(readZip(zip).files)
    abandon(desk)
  })

  it('refuses a faulty archive with every fault, and leaves nothing behind', async () => {
    const desk = await makeDesk(folder, files)
    const text = (value: unknown) => new TextEncoder().encode(JSON.stringify(value))
    const feature = (id: string, geometry: unknown) => ({ type: 'Feature', properties: { id, name: id }, geometry })
    const bad = {
      type: 'Polygon',
      coordinates: [
        [
          [8, 47],
          [8.001, 47.001],
          [8.001, 47],
          [8, 47.001],
          [8, 47],
        ],
      ],
    }
    const zip = writeZip(
      new Map([
        ['farm.json', text({ format: 'selion-farm', version: 1, name: 'Faulty' })],
        ['crop.csv', text('id,name,family')],
        ['systems.csv', new TextEncoder().encode('id,name\ny1,"Post\n')],
        [
          'fields.geojson',
          text({
            type: 'FeatureCollection',
            features: [feature('ok', rectangle(0, 0, 9, 9)), feature('crossed', bad)],
          }),
        ],
      ]),
    )
    const refused = await desk.ask('bringArchive', { name: 'a.zip', bytes: zip, partial: false })
    expect(refused).toMatchObject({
      ok: false,
      fault: {
        kind: 'archive',
        faults: [
          { file: 'systems.csv', record: 'line 2' },
          { file: 'fields.geojson', record: expect.stringContaining('crossed') },
        ],
      },
    })
    expect(await desk.answer('listFarms', {})).toEqual([])
    expect(await readdir(join(folder, 'opfs'))).toEqual([])
    expect([...files.keys()]).toEqual([])
    const { notices } = await desk.answer('bringArchive', { name: 'a.zip', bytes: zip, partial: true })
    expect(notices[0]).toMatch(/^Not read: systems.csv line 2 has a quote that is never closed/)
    expect(notices[1]).toMatch(/1 record was left out: fields.geojson .*crossed/)
    expect(notices[2]).toMatch(/^crop.csv is not read, .*; did you mean crops.csv\?\.$/)
    expect(await desk.ask('bringArchive', { name: 'a.zip', bytes: text('no zip'), partial: true })).toMatchObject({
      fault: { kind: 'archive' },
    })
    abandon(desk)
  })

  it('weighs picks as they are entered and as their unit changes', async () => {
    const desk = await makeDesk(folder, files)
    await desk.answer('makeFarm', NEW)
    await edit(desk, addField('f'), addBed('b', 'f', 1))
    const add = (kind: string, record: { id: string } & Record<string, unknown>): Edit => ({
      do: 'add',
      kind,
      record: { extra: {}, ...record },
    })
    await edit(
      desk,
      add('crops', { id: 'c', name: 'Tomato', family: 'Solanaceae' }),
      add('varieties', { id: 'v', crop: 'c', name: 'Red' }),
      add('containers', { id: 'k1', unit: 'crate', kg: 9 }),
      add('containers', { id: 'k2', unit: 'crate', kg: 7, crop: 'c' }),
      add('plantings', { id: 'p', bed: 'b', variety: 'v', set_out: '2025-05-01' }),
      add('picks', { id: 'x', on, planting: 'p', quantity: 2, unit: 'crate' }),
      add('picks', { id: 'y', on, bed: 'b', quantity: 2, unit: 'crate' }),
      add('picks', { id: 'z', on, bed: 'b', quantity: 2, unit: 'barrow' }),
    )
    await edit(desk, { do: 'change', kind: 'picks', id: 'y', to: { unit: 'lb' } })
    const weights = (await desk.answer('listRecords', { kind: 'picks' })).map((pick) => pick.kg_per_unit)
    // A pound is 0.45359237 kg exactly (NIST Handbook 44, appendix C).
    expect(weights).toEqual([7, 0.45359237, null])
    abandon(desk)
  })

  it('tells a wrong entry at its field, and lets one be accepted that may be', async () => {
    const desk = await makeDesk(folder, files)
    await desk.answer('makeFarm', NEW)
    await edit(desk, addField('f'))
    const bed = addBed('b', 'f', 1)
    const wrong = async (change: Record<string, unknown>) => {
      const reply = await edit(desk, { ...bed, record: { ...(bed.do === 'add' ? bed.record : {}), ...change } } as Edit)
      return reply.ok ? null : reply.fault
    }
    expect(await wrong({ name: '' })).toMatchObject({ kind: 'constraint', record: 'b', field: 'name' })
    expect(await wrong({ made: '2025-02-30' })).toMatchObject({ kind: 'constraint', record: 'b', field: 'made' })
    expect(await wrong({ colour: 'red' })).toMatchObject({ kind: 'constraint', record: 'b', field: 'colour' })
    expect(await wrong({ geom: { type: 'Point', coordinates: [1, 2] } })).toMatchObject({ record: 'b', field: 'geom' })
    expect(await wrong({ field: 'nowhere' })).toMatchObject({ kind: 'constraint' })
    const outside = await wrong({ geom: rectangle(190, 190, 40, 5) })
    expect(outside).toMatchObject({
      kind: 'constraint',
      record: 'b',
      field: 'geom',
      accept: { outside_accepted: true },
    })
    expect(await wrong({ geom: rectangle(190, 190, 40, 5), ...outside!.accept })).toBeNull()
    expect(await edit(desk, { do: 'change', kind: 'beds', id: 'gone', to: { name: 'x' } })).toMatchObject({
      fault: { kind: 'not found', record: 'gone' },
    })
    expect(await desk.ask('seeLayers', { on: 'today' })).toMatchObject({
      fault: { kind: 'asked wrongly', field: 'on' },
    })
    abandon(desk)
  })

  it('settles every request, stopped and unheard-of ones too', async () => {
    const desk = await makeDesk(folder, files)
    const said = vi.spyOn(console, 'error').mockImplementation(() => undefined)
    desk.send({ n: 1, name: 'listFarms', ask: {} })
    desk.send({ n: 2, name: 'listFarms', ask: {} })
    desk.send({ n: 3, name: 'dropEverything', ask: {} })
    desk.send({ stop: 2 })
    await desk.answer('listFarms', {})
    expect(desk.replies.get(1)).toEqual({ ok: true, value: [] })
    expect(desk.replies.get(2)).toMatchObject({ ok: false, fault: { kind: 'stopped' } })
    expect(desk.replies.get(3)).toMatchObject({
      ok: false,
      fault: { detail: expect.stringContaining('dropEverything') },
    })
    expect(said).toHaveBeenCalledTimes(1)
    said.mockRestore()
  })

  it('makes a copy when 200 steps have come since the last and nobody asks for anything', async () => {
    const desk = await makeDesk(folder, files, { tending: tend })
    const { entry } = await desk.answer('makeFarm', NEW)
    await edit(desk, addField('f'))
    for (let n = 0; n < 200; n++)
      await edit(desk, { do: 'change', kind: 'fields', id: 'f', to: { name: `Field ${n}` } })
    expect(desk.said.filter((event) => event.event === 'kept')).toHaveLength(1)
    await vi.waitFor(() => expect(desk.said.filter((event) => event.event === 'kept')).toHaveLength(2), {
      timeout: 20_000,
    })
    const { clock } = desk.keeper.inHand!
    await vi.waitFor(async () => expect((await readEntry(desk.keeper.shelf, entry.id))!.copiedTo).toBe(clock))
    abandon(desk)
    await rm(join(folder, 'opfs', `${entry.id}-1`), { recursive: true })
    const { notices } = await desk.answer('openFarm', { id: entry.id, takeOver: false })
    expect(notices[0]).toMatch(/and no step after it/)
    expect(await desk.answer('listRecords', { kind: 'fields' })).toMatchObject([{ name: 'Field 199' }])
    abandon(desk)
  }, 240_000)

  it('clears away what was never finished, and finds a farm whose entry was lost', async () => {
    const desk = await makeDesk(folder, files)
    const { entry } = await desk.answer('makeFarm', NEW)
    await edit(desk, addField('f'))
    abandon(desk)
    for (const name of files.keys()) if (name.includes('/entry')) files.delete(name)
    files.set('farms/unfinished/photos/p.png', Uint8Array.of(1))
    const other = await desk.keeper.engines.opfs.open('never-named-1', 'new')
    await other.close()
    expect(await desk.answer('listFarms', {})).toEqual([])
    await tidy(desk.keeper)
    expect(await desk.answer('listFarms', {})).toMatchObject([{ id: entry.id, name: NEW.name, storage: 'opfs' }])
    expect(await readdir(join(folder, 'opfs'))).toEqual([`${entry.id}-1`])
    expect([...files.keys()].filter((name) => name.includes('unfinished'))).toEqual([])
    await desk.answer('openFarm', { id: entry.id, takeOver: false })
    expect(await desk.answer('listRecords', { kind: 'fields' })).toHaveLength(1)
    abandon(desk)
  })

  it('opens a farm of an older version, with a copy before and after, and refuses one of a newer', async () => {
    const desk = await makeDesk(folder, files)
    const { entry } = await desk.answer('makeFarm', NEW)
    await edit(desk, addField('f'))
    await desk.answer('makeFarm', { ...NEW, name: 'Other' })
    const later = { name: '9999_later.sql', text: 'create table later (id text primary key);' }
    const newer = await makeDesk(folder, files)
    const { migrations } = newer.keeper
    Object.assign(newer.keeper, { migrations: [...migrations, later] })
    const copies = () => [...files.keys()].filter((name) => name.startsWith(`farms/${entry.id}/copy.`)).sort()
    const before = copies().length
    await newer.answer('openFarm', { id: entry.id, takeOver: false })
    expect(await newer.keeper.inHand!.db.rows('select * from later')).toEqual([])
    expect(copies().length).toBeGreaterThanOrEqual(before)
    await newer.answer('makeFarm', { ...NEW, name: 'Third' })
    expect(
      await makeDesk(folder, files).then((old) => old.ask('openFarm', { id: entry.id, takeOver: false })),
    ).toMatchObject({
      ok: false,
      fault: { kind: 'storage', detail: expect.stringMatching(/newer version.*update/) },
    })
    abandon(desk)
    abandon(newer)
  })
})
