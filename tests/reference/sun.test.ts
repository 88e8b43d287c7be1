import { describe, expect, it } from 'vitest'
import type { Metres } from '../../geo/plane/lonLat.ts'
import type { Caster } from '../../geo/sun/caster.ts'
import { isShaded, rayTo } from '../../geo/sun/isShaded.ts'
import { LEAST_ALTITUDE_DEG, shadeHours, sunHours } from '../../geo/sun/shadeHours.ts'
import { shadowOf } from '../../geo/sun/shadowOf.ts'
import { daylight, sunPosition } from '../../geo/sun/sunPosition.ts'
import { seededRandom } from '../../geo/yield/seededRandom.ts'

const GOLDEN = [-105.1786, 39.742476] as const
const AT_MS = Date.parse('2003-10-17T12:30:30-07:00')

describe('the sun', () => {
  // NREL/TP-560-34302, the report's own example (C): zenith 50.111622° with refraction, azimuth 194.340241°.
  it('stands where the published example has it, to 0.05°', () => {
    const { altitudeDeg, azimuthDeg } = sunPosition(AT_MS, GOLDEN)
    expect(Math.abs(90 - altitudeDeg - 50.111622)).toBeLessThan(0.05)
    expect(Math.abs(azimuthDeg - 194.340241)).toBeLessThan(0.05)
  })

  // The same report: sunrise 06:12:43, sunset 17:20:19 (C), each the one within the day by universal time: that sunset
  // is of the evening before. Held to half a minute: 0.1° of the sun's way, and air bends light by as much more or less.
  it('rises and sets when the published example says', () => {
    const { riseMs } = daylight('2003-10-17', GOLDEN)!
    const { setMs } = daylight('2003-10-16', GOLDEN)!
    expect(Math.abs(riseMs - Date.parse('2003-10-17T06:12:43-07:00'))).toBeLessThan(30_000)
    expect(Math.abs(setMs - Date.parse('2003-10-16T17:20:19-07:00'))).toBeLessThan(30_000)
  })

  it('neither sets at midsummer nor rises at midwinter far in the north', () => {
    const light = daylight('2025-06-21', [25, 70])!
    expect((light.setMs - light.riseMs) / 3_600_000).toBe(24)
    expect(daylight('2025-12-21', [25, 70])).toBeNull()
  })

  // All hours of a year above the horizon: 4,380 and a little more for refraction and the sun's breadth (common knowledge); those under 5° are left out.
  it('shines for the hours of a year that astronomy gives it', () => {
    const hours = sunHours([0, 0], { from: '2025-01-01', to: '2025-12-31', everyDays: 5, everyMinutes: 10 })
    const all = hours.reduce((sum, one) => sum + one.hours, 0)
    // At the equator the sun takes 20 minutes for 5° at either end of the day, a little more away from the equinoxes.
    expect(all).toBeGreaterThan(365 * (12.1 - 0.75))
    expect(all).toBeLessThan(365 * (12.15 - 0.6))
  })
})

describe('a shadow', () => {
  // 2 m at an altitude of 39.888378° throws 2.392959 m, away from the sun (X).
  it('of a wall of 2 m is 2.392959 m long and points away from the sun', () => {
    const ray = rayTo({ altitudeDeg: 39.888378, azimuthDeg: 194.340241 })!
    const wall: Caster = { shape: 'wall', from: [0, 0], to: [3, 0], heightM: 2 }
    const [foot, , , tip] = shadowOf(wall, ray)
    const [east, north] = [tip![0] - foot![0], tip![1] - foot![1]]
    expect(Math.hypot(east, north)).toBeCloseTo(2.392959, 6)
    expect((Math.atan2(east, north) * 180) / Math.PI).toBeCloseTo(14.340241, 6)
  })

  // By hand: the sun due south at 45° throws the shadow of a wall 1.8 m high along y = 0 onto 0 < y < 1.8.
  it('falls where it falls by hand', () => {
    const ray = rayTo({ altitudeDeg: 45, azimuthDeg: 180 })!
    const wall: Caster = { shape: 'wall', from: [-5, 0], to: [5, 0], heightM: 1.8 }
    for (const [spot, shaded] of [
      [[0, 1.79], true],
      [[0, 1.81], false],
      [[0, -0.1], false],
      [[4.99, 1], true],
      [[5.01, 1], false],
    ] as const)
      expect(isShaded(spot, wall, ray), String(spot)).toBe(shaded)
  })

  it('of a crown is as its outline draws it', () => {
    const random = seededRandom(5)
    for (let n = 0; n < 40; n++) {
      const crown: Caster = {
        shape: 'crown',
        at: [0, 0],
        radiusM: 1 + random() * 4,
        lowM: 1 + random() * 2,
        highM: 4 + random() * 8,
      }
      const ray = rayTo({ altitudeDeg: 8 + random() * 70, azimuthDeg: random() * 360 })!
      const outline = shadowOf(crown, ray)
      const middle: Metres = [0, 1].map(
        (k) => outline.reduce((sum, p) => sum + p[k]!, 0) / outline.length,
      ) as unknown as Metres
      const scaled = (by: number) =>
        outline.map(([x, y]): Metres => [middle[0] + (x - middle[0]) * by, middle[1] + (y - middle[1]) * by])
      for (const spot of scaled(0.995)) expect(isShaded(spot, crown, ray)).toBe(true)
      for (const spot of scaled(1.005)) expect(isShaded(spot, crown, ray)).toBe(false)
    }
  })
})

describe('hours of sun lost', () => {
  /** Whether a ray meets a caster, by walking along it in small steps: slow, and of no formula of the reckoning. */
  function marched([x, y]: Metres, casters: readonly Caster[], altitudeDeg: number, azimuthDeg: number): boolean {
    const [a, z] = [(altitudeDeg * Math.PI) / 180, (azimuthDeg * Math.PI) / 180]
    const step = 0.02
    let before: readonly number[] | null = null
    for (let s = step; s * Math.sin(a) < 12; s += step) {
      const p = [x + s * Math.cos(a) * Math.sin(z), y + s * Math.cos(a) * Math.cos(z), s * Math.sin(a)] as const
      for (const c of casters) {
        if (c.shape === 'crown') {
          const half = (c.highM - c.lowM) / 2
          const [u, v, w] = [(p[0] - c.at[0]) / c.radiusM, (p[1] - c.at[1]) / c.radiusM, (p[2] - c.lowM - half) / half]
          if (u * u + v * v + w * w <= 1) return true
        } else if (before && p[2] <= c.heightM) {
          const side = (q: readonly number[]) =>
            Math.sign((c.to[0] - c.from[0]) * (q[1]! - c.from[1]) - (c.to[1] - c.from[1]) * (q[0]! - c.from[0]))
          const lengthM = Math.hypot(c.to[0] - c.from[0], c.to[1] - c.from[1])
          const alongM =
            ((p[0] - c.from[0]) * (c.to[0] - c.from[0]) + (p[1] - c.from[1]) * (c.to[1] - c.from[1])) / lengthM
          if (side(p) !== side(before) && alongM >= 0 && alongM <= lengthM) return true
        }
      }
      before = p
    }
    return false
  }

  it('agree with rays walked step by step through seeded scenes, to 2 % of the sun there was', () => {
    const random = seededRandom(11)
    for (let scene = 0; scene < 4; scene++) {
      const place = [random() * 300 - 150, random() * 120 - 60] as const
      const casters: Caster[] = [
        ...Array.from({ length: 3 }, (): Caster => {
          const [x, y, turn] = [random() * 16 - 8, random() * 16 - 8, random() * Math.PI]
          return {
            shape: 'wall',
            from: [x, y],
            to: [x + 8 * Math.cos(turn), y + 8 * Math.sin(turn)],
            heightM: 1 + random() * 1.5,
          }
        }),
        {
          shape: 'crown',
          at: [random() * 20 - 10, random() * 20 - 10],
          radiusM: 1 + random() * 3,
          lowM: 1,
          highM: 4 + random() * 6,
        },
      ]
      const spots = Array.from({ length: 5 }, (): Metres => [random() * 12 - 6, random() * 12 - 6])
      const [from, to] = ['2025-06-01', '2025-06-20']
      const shade = shadeHours(spots, casters, sunHours(place, { from, to, everyDays: 5, everyMinutes: 10 }))
      for (const [n, spot] of spots.entries()) {
        let [sun, lost] = [0, 0]
        for (
          let ms = Date.parse(`${from}T00:00Z`) - 43_200_000;
          ms < Date.parse(`${to}T00:00Z`) + 43_200_000;
          ms += 61 * 60_000
        ) {
          const { altitudeDeg, azimuthDeg } = sunPosition(ms, place)
          if (altitudeDeg < LEAST_ALTITUDE_DEG) continue
          sun++
          if (marched(spot, casters, altitudeDeg, azimuthDeg)) lost++
        }
        expect(Math.abs(shade.lostHours[n]! / shade.sunHours - lost / sun), `scene ${scene} spot ${n}`).toBeLessThan(
          0.02,
        )
      }
    }
  })
})
