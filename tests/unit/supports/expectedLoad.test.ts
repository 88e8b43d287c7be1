import { describe, expect, it } from 'vitest'
import type { KnownYields } from '../../../geo/supports/cropLoads.ts'
import { DESIGN_LOAD_N_PER_M, expectedLoad } from '../../../geo/supports/expectedLoad.ts'
import { GRAVITY } from '../../../geo/supports/load/wire.ts'
import type { HeldPlanting } from '../../../geo/supports/run.ts'

const held = (more: Partial<HeldPlanting> = {}): HeldPlanting => ({
  planting: 'p',
  crop: 'tomato',
  variety: 'red',
  heldM: 10,
  plants: 20,
  groundWidthM: 1.2,
  setOut: '2025-05-10',
  cleared: null,
  ...more,
})
const own = (variety: string, kg: number, rowM: number, counted = { kg: 0, plants: 0 }) => ({
  crop: 'tomato',
  variety,
  kg,
  rowM,
  counted,
})
const load = (yields: Partial<KnownYields>, ...plantings: HeldPlanting[]) =>
  expectedLoad({ held: plantings, lengthM: 10 }, { own: [], usual: [], ...yields })

// All worked by hand: a run of 10 m that holds 10 m of row with 20 plants.
describe('what a run is expected to bear', () => {
  it('is what its variety gave a plant, for the plants along it: 60 kg of 15 plants is 4 kg, 20 of them 80 kg on 10 m', () => {
    const yields = { own: [own('red', 60, 30, { kg: 60, plants: 15 }), own('pink', 10, 30, { kg: 10, plants: 100 })] }
    const told = load(yields, held())
    expect(told.from).toBe('variety')
    expect(told.loadNPerM).toBeCloseTo(8 * GRAVITY, 9)
    expect(load(yields, held({ plants: 10 })).loadNPerM).toBeCloseTo(4 * GRAVITY, 9)
  })

  it('is what a row metre of it gave where plants are counted on neither side', () => {
    expect(load({ own: [own('red', 60, 30)] }, held()).loadNPerM).toBeCloseTo(2 * GRAVITY, 9)
    const counted = { own: [own('red', 60, 30, { kg: 60, plants: 15 })] }
    expect(load(counted, held({ plants: null })).loadNPerM).toBeCloseTo(2 * GRAVITY, 9)
  })

  it('is that of the crop where the variety was never picked: 70 kg on 60 m', () => {
    const told = load({ own: [own('pink', 10, 30), own('green', 60, 30)] }, held())
    expect(told.from).toBe('crop')
    expect(told.loadNPerM).toBeCloseTo((70 / 60) * GRAVITY, 9)
  })

  it('is the usual yield on the ground beside the row where nothing was: 5 kg/m² on 1.2 m is 6 kg a metre', () => {
    const told = load({ usual: [{ crop: 'tomato', kgPerM2: 5 }] }, held())
    expect(told.from).toBe('usual yield')
    expect(told.loadNPerM).toBeCloseTo(6 * GRAVITY, 9)
  })

  it('is the published design load where nothing is known of one of its plantings', () => {
    const told = load({ own: [own('red', 60, 30)] }, held(), held({ planting: 'q', crop: 'bean', variety: 'long' }))
    expect(told).toEqual({ loadNPerM: DESIGN_LOAD_N_PER_M, from: 'design load' })
    expect(load({}).from).toBe('design load')
  })

  it('adds plantings that stand together and not those that follow one another, and rests on the least sure', () => {
    const yields = { own: [own('red', 60, 30)], usual: [{ crop: 'bean', kgPerM2: 2 }] }
    const bean = held({ planting: 'q', crop: 'bean', variety: 'long', groundWidthM: 0.5 })
    const together = load(yields, held(), bean)
    expect(together.from).toBe('usual yield')
    expect(together.loadNPerM).toBeCloseTo(3 * GRAVITY, 9)
    const after = load(yields, held({ cleared: '2025-07-01' }), { ...bean, setOut: '2025-07-01' })
    expect(after.loadNPerM).toBeCloseTo(2 * GRAVITY, 9)
  })
})
