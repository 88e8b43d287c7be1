import type { Geometry } from 'geojson'
import type { LogEntry } from '../../geo/keep/stepLog.ts'
import { planeAbout } from '../../geo/plane/plane.ts'
import { tick } from '../../geo/store/clock.ts'
import type { Database } from '../../geo/store/database.ts'
import { type Act, applyEdits, type Edit } from '../../geo/store/edit.ts'
import { readStored, TABLES } from '../../geo/store/row.ts'
import type { Step } from '../../geo/store/step.ts'
import { readStacks, takeBack } from '../../geo/store/undo.ts'

/** An invented farm's origin. */
export const ORIGIN = [8.0312345678901, 47.4098765432109] as const

/** Acts on a database as a person would, each act with its own id and a clock that goes on. */
export function actor(db: Database, fromMs = 1_700_000_000_000) {
  let clock: string | null = null
  let n = 0
  const act = (label: string): Act => {
    n++
    clock = tick(clock, fromMs + n, 'here')
    return {
      id: `step-${String(n).padStart(4, '0')}-${crypto.randomUUID()}`,
      clock,
      device: 'here',
      author: null,
      label,
    }
  }
  return {
    edit: (label: string, ...edits: Edit[]): Promise<Step> => applyEdits(db, act(label), edits),
    undo: async (): Promise<Step> => (await takeBack(db, 'undo', act('undo')))!,
    redo: async (): Promise<Step> => (await takeBack(db, 'redo', act('redo')))!,
  }
}

const plane = planeAbout(ORIGIN)

/** A rectangle of the farm's plane, from its south-west corner, in metres. */
export function rectangle(east: number, north: number, width: number, length: number): Geometry {
  const corners = [
    [east, north],
    [east + width, north],
    [east + width, north + length],
    [east, north + length],
    [east, north],
  ] as const
  return { type: 'Polygon', coordinates: [corners.map((at) => [...plane.toLonLat(at)])] }
}

export const addField = (id: string): Edit => ({
  do: 'add',
  kind: 'fields',
  record: {
    id,
    name: `Field ${id}`,
    note: null,
    extra: { 'soil type': 'loam', ph: 6.8 },
    geom: rectangle(0, 0, 200, 200),
  },
})
export const addBed = (id: string, field: string, n: number): Edit => ({
  do: 'add',
  kind: 'beds',
  record: {
    id,
    field,
    name: `Bed ${n}`,
    made: '2021-03-04',
    extra: {},
    geom: rectangle(2 + n * 1.3, 3, 0.9, 30 + n / 7),
  },
})

export const farmRecord: Edit = {
  do: 'add',
  kind: 'farm',
  record: {
    id: 'farm',
    name: 'An invented farm',
    origin_lon: ORIGIN[0],
    origin_lat: ORIGIN[1],
    units: 'metric',
    season_start_month: 1,
    extra: {},
  },
}

/** Everything that a farm's database holds: records bit for bit, journal, undo stacks. */
export async function wholeOf(db: Database): Promise<Record<string, unknown>> {
  const whole: Record<string, unknown> = {}
  for (const kind of TABLES) whole[kind.name] = await readStored(db, kind)
  whole.steps = await db.rows('select id, clock, device, author, label, undoes from steps order by ord')
  whole.changes = await db.rows(
    'select step, n, kind, record, before, after from changes c join steps s on s.id = c.step order by s.ord, n',
  )
  whole.stacks = await readStacks(db)
  whole.plans = await db.rows(`select id, encode(st_asewkb(plan), 'hex') as plan from beds order by ord`)
  return whole
}

export const logged = (step: Step): LogEntry => ({ step })
