import type { Polygon } from 'geojson'
import { expect, it } from 'vitest'
import type { Area } from '../../geo/layout/area.ts'
import { layBeds } from '../../geo/layout/layBeds.ts'
import { layRows } from '../../geo/layout/layRows.ts'
import type { LonLat } from '../../geo/plane/lonLat.ts'
import { planeAbout } from '../../geo/plane/plane.ts'
import { madeCase } from '../unit/layout/randomFields.ts'
import { openTestDatabase, SERVER_ABSENT } from './harness.ts'

// Against PostGIS on the stored plan (X): ST_Contains, ST_Area of intersections, ST_Distance, ST_Area.
it.skipIf(SERVER_ABSENT).each<[string, LonLat, number]>([
  ['in the north', [15.64, 46.34], 1],
  ['in the south', [147.3, -42.9], 1001],
])('lays beds that never overlap, never leave the field, and sum to what was reckoned, %s', async (_, origin, from) => {
  const plane = planeAbout(origin)
  const geoJson = (area: Area): Polygon => ({
    type: 'Polygon',
    coordinates: area.map((ring) => [...ring, ring[0]!].map((at) => [...plane.toLonLat(at)])),
  })
  const db = await openTestDatabase(origin)
  let beds = 0
  try {
    for (let seed = from; seed < from + 16; seed += 1) {
      const { field, obstacles, trees, plan } = madeCase(seed)
      const laid = layBeds(field, obstacles, plan)
      if (!laid || laid.beds.length === 0) continue
      beds += laid.beds.length
      const rows = layRows([laid.beds[0]!.corners], { by: { count: 2 }, edgeM: laid.widthM / 4, endM: 0.5 })
      const reckonedM2 = laid.beds.reduce((sum, bed) => sum + bed.lengthM * laid.widthM, 0)
      const told = await db.rows<Record<string, number | boolean>>(
        `with drawn as (select st_transform(st_geomfromgeojson(f), 990001) as field from (select $1::text as f) t),
          wider as materialized (select st_buffer(field, 1e-5) as wide from drawn),
          beds as materialized (select n, st_transform(st_geomfromgeojson(b), 990001) as bed
            from jsonb_array_elements_text($2::jsonb) with ordinality t(b, n)),
          trees as (select st_setsrid(st_makepoint((t->>0)::float8, (t->>1)::float8), 990001) as tree, (t->>2)::float8 as clear_m
            from jsonb_array_elements($3::jsonb) t),
          shed as (select st_transform(st_geomfromgeojson(s), 990001) as shed from (select $4::text as s) t),
          lines as (select st_transform(st_setsrid(st_geomfromgeojson(l), 4326), 990001) as line
            from jsonb_array_elements_text($5::jsonb) t(l))
        select
          (select bool_and(st_isvalid(bed)) from beds) as valid,
          (select bool_and(st_contains(wide, bed)) from beds, wider) as inside,
          (select min(st_distance(bed, st_boundary(field))) from beds, drawn) as to_edge,
          (select coalesce(sum(st_area(st_intersection(a.bed, b.bed))), 0) from beds a join beds b on a.n < b.n and a.bed && b.bed) as overlap,
          (select coalesce(min(st_distance(a.bed, b.bed)), 1e9) from beds a join beds b on a.n < b.n and b.n < a.n + 4) as apart,
          (select coalesce(min(st_distance(bed, tree) - clear_m), 1e9) from beds, trees) as from_trees,
          (select min(st_distance(bed, shed)) from beds, shed) as from_shed,
          (select sum(st_area(bed)) from beds) as area,
          (select bool_and(st_contains(st_buffer(bed, 1e-6), line)) from lines, beds where n = 1) as rows_inside,
          (select sum(st_length(line)) from lines) as row_m`,
        [
          JSON.stringify(geoJson(field)),
          JSON.stringify(laid.beds.map(({ corners }) => JSON.stringify(geoJson([corners])))),
          JSON.stringify(trees.map(({ at, clearM }) => [...at, clearM])),
          JSON.stringify(geoJson(obstacles.at(-1)!.area)),
          JSON.stringify(
            rows.map(({ line }) =>
              JSON.stringify({ type: 'LineString', coordinates: line.map((at) => [...plane.toLonLat(at)]) }),
            ),
          ),
        ],
      )
      const found = told[0]!
      const context = `seed ${seed}`
      expect(found.valid, context).toBe(true)
      expect(found.inside, context).toBe(true)
      if (plan.headland === 'all round') expect(Number(found.to_edge), context).toBeGreaterThan(plan.headlandM - 1e-5)
      expect(Number(found.overlap), context).toBeLessThan(1e-5)
      expect(Number(found.apart), context).toBeGreaterThan(plan.pieces === 'every' ? -1e-9 : plan.pathM - 1e-5)
      expect(Number(found.from_trees), context).toBeGreaterThan(-1e-5)
      expect(Number(found.from_shed), context).toBeGreaterThan(1 - 1e-5)
      expect(Math.abs(Number(found.area) / reckonedM2 - 1), context).toBeLessThan(1e-8)
      if (rows.length > 0) {
        expect(found.rows_inside, context).toBe(true)
        expect(Number(found.row_m), context).toBeCloseTo(
          rows.reduce((sum, row) => sum + row.lengthM, 0),
          6,
        )
      }
    }
    expect(beds).toBeGreaterThan(150)
  } finally {
    await db.close()
  }
})
