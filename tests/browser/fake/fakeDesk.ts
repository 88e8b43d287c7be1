import type { Answer, Ask, Desk, FarmEntry, History, OpenFarm, Reply, RequestName } from '../../../src/desk/door.ts'
import { fakeLayers, summer } from './fakeLayers.ts'
import { fakeYield } from './fakeYield.ts'
import { BEDS, FIELDS, ORIGIN, seeded } from './inventedFarm.ts'

const ENTRY: FarmEntry = {
  id: 'invented',
  name: 'Overlook, an invented farm',
  invented: true,
  madeMs: Date.UTC(2026, 2, 1),
  openedMs: Date.UTC(2026, 8, 14),
  storage: 'opfs',
}
const FARM: OpenFarm = {
  entry: ENTRY,
  farm: {
    id: 'farm',
    extra: {},
    name: ENTRY.name,
    origin_lon: ORIGIN[0],
    origin_lat: ORIGIN[1],
    timezone: null,
    units: 'metric',
    currency: 'EUR',
    season_start_month: 1,
  },
  origin: ORIGIN,
  seasons: [2024, 2025, 2026],
  history: { undo: null, redo: null },
  notices: [],
}

type Answers = { [N in RequestName]?: (ask: Ask<N>) => Answer<N> }

/** A desk over invented figures, kept in memory and forgotten with the page. It keeps no edit. */
export function fakeDesk(): Desk {
  const history: History = { undo: null, redo: null }
  const answers: Answers = {
    listFarms: () => [ENTRY],
    makeDemo: () => FARM,
    openFarm: () => FARM,
    makeFarm: ({ name }) => ({
      ...FARM,
      entry: { ...ENTRY, id: 'own', name, invented: false },
      farm: { ...FARM.farm, name },
      seasons: [],
    }),
    seeLayers: ({ on }) => fakeLayers(on),
    measure: ({ on }) => measured(on),
    supportRuns: ({ on }) =>
      fakeLayers(on).supports.features.map(({ properties }) => {
        const bed = BEDS.find(({ id }) => properties.id === `s-${id}`)!
        return {
          ...properties,
          field: bed.field,
          bed: bed.id,
          age_seasons: properties.permanent ? Number(on.slice(0, 4)) - 2023 : 1,
        }
      }),
    clearance: () =>
      BEDS.slice(0, 7).map((bed, k) => ({
        bed: bed.id,
        tree: 't1',
        trunk_m: 4 + k,
        canopy_m: k - 2,
        under_canopy_m2: Math.max(0, 6 - k),
        within_reach_m2: Math.max(0, 14 - 2 * k),
        sensitive: [],
      })),
    pickWeeks: ({ season }) => weeks(season),
    yield: ({ season, smoothM }) => fakeYield(season, smoothM),
    listPhotos: () => [],
    listRecords: ({ kind }) =>
      kind === 'stock_lots'
        ? [{ id: 'l1', extra: {}, kind: 'hazel', bed: 'f1-3', row: null, year: 2025, count: 96, grade: 'A', price: 4 }]
        : kind === 'stock_moves'
          ? [{ id: 'm1', extra: {}, lot: 'l1', on: '2026-03-02', move: 'sold', count: 12 }]
          : [],
    seeCard: ({ kind, id, on }) => {
      const bed = measured(on).beds.find((one) => one.id === id)
      const record = fakeLayers(on).beds.features.find(({ properties }) => properties.id === id)
      return {
        kind,
        id,
        title: bed?.name ?? id,
        subtitle: bed ? `a bed in ${FIELDS.find((field) => field.id === bed.field)!.name}` : kind,
        record: { id, extra: {}, name: bed?.name ?? id, ...(record && { geom: record.geometry }) },
        lines: bed
          ? [
              { label: 'Area', value: bed.area_m2, unit: 'm2', from: 'The outline’s area in the farm’s plane.' },
              { label: 'Length', value: bed.length_m, unit: 'm', from: 'Long side of the least rectangle about it.' },
              { label: 'Bearing', value: bed.bearing_deg, unit: 'deg' },
              { label: 'Made on', value: null, unit: 'day' },
            ]
          : [],
        tables: bed
          ? [{ title: 'What stood here', columns: ['season', 'crop', 'kg'], rows: [[2026, 'tomato', 21.4]] }]
          : [],
      }
    },
    edit: ({ label, edits }) => ({
      step: label,
      label,
      records: edits.map((edit) => ({ kind: edit.kind, id: edit.do === 'add' ? edit.record.id : edit.id })),
      layers: {},
      measured: { fields: [], beds: [], goneBeds: [], goneFields: [] },
      history: { ...history, undo: label },
    }),
    undo: () => null,
    redo: () => null,
  }
  return {
    ask: async <N extends RequestName>(name: N, ask: Ask<N>): Promise<Reply<Answer<N>>> => {
      const answer = answers[name] as ((ask: Ask<N>) => Answer<N>) | undefined
      if (!answer)
        return {
          ok: false,
          fault: { kind: 'asked wrongly', field: null, record: null, detail: `The invented desk has no ${name}.` },
        }
      return { ok: true, value: answer(ask) }
    },
    listen: (hear) => {
      hear({ event: 'kept', copyMs: Date.UTC(2026, 8, 14, 7, 10) })
      return () => {}
    },
  }
}

function measured(on: string): Answer<'measure'> {
  const { stretches, supports } = fakeLayers(on)
  const beds = BEDS.map((bed) => {
    const own = stretches.features.filter(({ properties }) => properties.id === `p-${bed.id}` && properties.climbs)
    const climbing_m = own.reduce((sum, { properties }) => sum + properties.length_m, 0)
    const held_m = own.reduce((sum, { properties }) => sum + (properties.held ? properties.length_m : 0), 0)
    return {
      id: bed.id,
      field: bed.field,
      name: bed.name,
      area_m2: bed.lengthM * bed.widthM,
      length_m: bed.lengthM,
      width_m: bed.widthM,
      bearing_deg: bed.bearingDeg,
      row_m: bed.lengthM,
      support_m: 0,
      climbing_m,
      unheld_m: climbing_m - held_m,
    }
  })
  const fields = FIELDS.map(({ id, name }) => {
    const own = beds.filter((bed) => bed.field === id)
    const sum = (of: (bed: (typeof beds)[number]) => number) => own.reduce((total, bed) => total + of(bed), 0)
    const support_m: Record<string, number> = {}
    for (const { properties } of supports.features)
      if (own.some((bed) => properties.id === `s-${bed.id}`))
        support_m[properties.system_name] = (support_m[properties.system_name] ?? 0) + properties.length_m
    return {
      id,
      name,
      area_m2: 1400,
      bed_count: own.length,
      bed_area_m2: sum((bed) => bed.area_m2),
      row_m: sum((bed) => bed.row_m),
      support_m,
      climbing_m: sum((bed) => bed.climbing_m),
      held_m: sum((bed) => bed.climbing_m - bed.unheld_m),
      unheld_m: sum((bed) => bed.unheld_m),
    }
  })
  return { fields, beds }
}

function weeks(season: number): Answer<'pickWeeks'> {
  if (season < 2024 || season > 2026) return []
  const random = seeded(season)
  return Array.from({ length: 53 }, (_, k) => {
    const from = new Date(Date.UTC(season, 0, 1 + 7 * k)).toISOString().slice(0, 10)
    const kg = summer(from) ? 40 * Math.exp(-(((k - 34) / 7) ** 2)) * (0.7 + 0.6 * random()) : 0
    return { from, kg, picks: Math.ceil(kg) }
  })
}
