import type { Geometry } from 'geojson'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { LAYERS, type LayerFeature } from '../../geo/layers/layer.ts'
import { readLayers } from '../../geo/layers/readLayers.ts'
import { measure } from '../../geo/measure/measure.ts'
import type { MeasuredBed, MeasuredField } from '../../geo/measure/measured.ts'
import { planeAbout } from '../../geo/plane/plane.ts'
import type { Database } from '../../geo/store/database.ts'
import { removalOf } from '../../geo/store/dependents.ts'
import type { Edit } from '../../geo/store/edit.ts'
import type { Changed } from '../../src/desk/door.ts'
import { changedBy } from '../../src/desk/farm/changedBy.ts'
import { openTestDatabase, SERVER_ABSENT } from './harness.ts'
import { actor, addField, farmRecord, ORIGIN, rectangle } from './keepFarm.ts'

const on = '2025-07-01'
const plane = planeAbout(ORIGIN)
const line = (...points: [number, number][]): Geometry => ({
  type: 'LineString',
  coordinates: points.map((at) => [...plane.toLonLat(at)]),
})

/** What a page shows, kept fresh by changes alone. */
class Shown {
  readonly layers = new Map<string, Map<string, LayerFeature[]>>()
  fields = new Map<string, MeasuredField>()
  beds = new Map<string, MeasuredBed>()

  static async of(db: Database): Promise<Shown> {
    const shown = new Shown()
    const layers = await readLayers(db, on)
    for (const name of LAYERS) shown.put(name, layers[name].features)
    const { fields, beds } = await measure(db, on)
    for (const field of fields) shown.fields.set(field.id, field)
    for (const bed of beds) shown.beds.set(bed.id, bed)
    return shown
  }

  put(name: string, features: readonly LayerFeature[]): void {
    const layer = this.layers.get(name) ?? new Map<string, LayerFeature[]>()
    this.layers.set(name, layer)
    const ids = new Set(features.map((feature) => feature.properties.id))
    for (const id of ids)
      layer.set(
        id,
        features.filter((feature) => feature.properties.id === id),
      )
  }

  apply({ layers, measured }: Changed): void {
    for (const name of LAYERS) {
      const change = layers[name]
      if (!change) continue
      for (const id of change.gone) this.layers.get(name)!.delete(id)
      this.put(name, change.put)
    }
    for (const id of measured.goneFields) this.fields.delete(id)
    for (const id of measured.goneBeds) this.beds.delete(id)
    for (const field of measured.fields) this.fields.set(field.id, field)
    for (const bed of measured.beds) this.beds.set(bed.id, bed)
  }

  /** For comparing: sums are rounded to a nanometre, since they are added in another order. */
  toJSON(): unknown {
    const rounded = (_: string, value: unknown) =>
      typeof value === 'number' ? Math.round(value * 1e9) / 1e9 + 0 : value
    const sorted = <T>(map: Map<string, T>) => Object.fromEntries([...map].sort(([a], [b]) => (a < b ? -1 : 1)))
    const whole = {
      layers: Object.fromEntries([...this.layers].map(([name, layer]) => [name, sorted(layer)])),
      fields: sorted(this.fields),
      beds: sorted(this.beds),
    }
    return JSON.parse(JSON.stringify(whole, rounded))
  }
}

describe.skipIf(SERVER_ABSENT)('what a step is told to have changed', () => {
  let db: Database
  beforeAll(async () => {
    db = await openTestDatabase(ORIGIN)
  })
  afterAll(() => db?.close())

  it('is all that it changed, through two hundred random steps', async () => {
    const person = actor(db)
    let seed = 20250701
    const random = (below: number) => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0
      return Math.floor((seed / 2 ** 32) * below)
    }
    const pick = <T>(from: readonly T[]) => from[random(from.length)]!
    const add = (kind: string, record: { id: string } & Record<string, unknown>): Edit => ({
      do: 'add',
      kind,
      record: { extra: {}, ...record },
    })
    const change = (kind: string, id: string, to: Record<string, unknown>): Edit => ({ do: 'change', kind, id, to })
    const bedAt = (n: number, shift = 0) => rectangle(2 + (n % 20) * 3 + shift, 3 + 40 * Math.floor(n / 20), 1.2, 30)
    const rowAt = (n: number, shift = 0) => {
      const [east, north] = [2.6 + (n % 20) * 3 + shift, 3 + 40 * Math.floor(n / 20)]
      return line([east, north + 0.5], [east, north + 29.5])
    }
    const runAt = (n: number) => {
      const [east, north] = [2.2 + (n % 20) * 3 + random(30) / 10, 3 + 40 * Math.floor(n / 20)]
      return line([east, north + random(10)], [east + random(2), north + 15 + random(15)])
    }

    await person.edit('found', farmRecord, addField('f'), {
      ...addField('g'),
      record: { id: 'g', name: 'East', extra: {}, geom: rectangle(200, 0, 100, 200) },
    } as Edit)
    await person.edit(
      'catalogues',
      add('crops', { id: 'bean', name: 'Bean', family: 'Fabaceae', climbs: true }),
      add('crops', { id: 'leek', name: 'Leek', family: 'Alliaceae', climbs: false }),
      add('varieties', { id: 'v-bean', crop: 'bean', name: 'Pole' }),
      add('varieties', { id: 'v-leek', crop: 'leek', name: 'Long' }),
      add('systems', { id: 'net', name: 'Net' }),
      add('systems', { id: 'string', name: 'String' }),
    )
    const count = 40
    for (let n = 0; n < count; n++)
      await person.edit(
        'bed',
        add('beds', { id: `b${n}`, field: 'f', name: `Bed ${n}`, geom: bedAt(n) }),
        add('rows', { id: `r${n}`, bed: `b${n}`, geom: rowAt(n) }),
        add('plantings', { id: `p${n}`, row: `r${n}`, variety: pick(['v-bean', 'v-leek']), set_out: '2025-05-01' }),
        add('plantings', { id: `q${n}`, bed: `b${n}`, variety: 'v-bean', from_m: 2, to_m: 9, set_out: '2025-05-01' }),
      )
    let made = 0
    const acts: readonly (() => Promise<Edit[]>)[] = [
      async () => [add('supports', { id: `s${made++}`, system: pick(['net', 'string']), geom: runAt(random(count)) })],
      async () => (made > 0 ? [change('supports', `s${random(made)}`, { geom: runAt(random(count)) })] : []),
      async () =>
        made > 0 ? [change('supports', `s${random(made)}`, { taken_down: pick([null, '2025-06-01']) })] : [],
      async () => (made > 0 ? removalOf(db, [{ kind: 'supports', id: `s${random(made)}` }]) : []),
      async () => {
        const n = random(count)
        const shift = random(8) / 10
        return [change('beds', `b${n}`, { geom: bedAt(n, shift) }), change('rows', `r${n}`, { geom: rowAt(n, shift) })]
      },
      async () => [change('beds', `b${random(count)}`, { retired: pick([null, '2025-06-30', '2025-08-01']) })],
      async () => [change('beds', `b${random(count)}`, { field: pick(['f', 'g']), outside_accepted: true })],
      async () => [change('rows', `r${random(count)}`, { bed: `b${random(count)}`, outside_accepted: true })],
      async () => [change('plantings', `p${random(count)}`, { cleared: pick([null, '2025-06-15', '2025-09-01']) })],
      async () => [change('plantings', `q${random(count)}`, { bed: `b${random(count)}` })],
      async () => [change('varieties', 'v-leek', { crop: pick(['leek', 'bean']) })],
      async () => [change('crops', 'bean', { climbs: pick([true, false]), name: pick(['Bean', 'Runner']) })],
      async () => [change('systems', pick(['net', 'string']), { name: `System ${random(9)}` })],
      async () => [add('systems', { id: `y${made++}x`, name: `Own ${made}` })],
      async () => [change('fields', 'g', { geom: rectangle(200 + random(9), 0, 100, 200) })],
      async () => [
        add('trees', {
          id: `t${made++}`,
          species: 'Juglans nigra',
          planted: '2010-01-01',
          geom: { type: 'Point', coordinates: [...plane.toLonLat([random(90), random(90)])] },
        }),
      ],
      async () => [change('farm', 'farm', { season_start_month: 1 + random(12) })],
      async () => removalOf(db, [{ kind: 'beds', id: `b${random(count)}` }]),
    ]
    const shown = await Shown.of(db)
    let taken = 0
    for (let n = 0; taken < 200 && n < 1000; n++) {
      const isBack = n % 7 === 6
      const edits = isBack ? [] : await pick(acts)()
      const step = isBack
        ? await (n % 2 ? person.undo() : person.redo())
        : edits.length > 0
          ? await person.edit('act', ...edits).catch((error: Error) => {
              if (!/is not there/.test(error.message) && error.name !== 'DatabaseError') throw error
              return null
            })
          : null
      if (!step) continue
      taken++
      shown.apply(await changedBy({ db } as Parameters<typeof changedBy>[0], step, on))
      // What was not told stays wrong, so that it is still seen some steps later.
      if (taken % 8 === 0)
        expect(shown.toJSON(), step.changes.map((c) => `${c.kind} ${c.record}`).join()).toEqual(
          (await Shown.of(db)).toJSON(),
        )
    }
    expect(taken).toBe(200)
  }, 240_000)
})
