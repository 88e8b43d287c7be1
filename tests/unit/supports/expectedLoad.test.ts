import { describe, expect, it } from 'vitest'
import type { KnownYields } from '../../../geo/supports/cropLoads.ts'
import { DESIGN_LOAD_N_PER_M, expectedLoad } from '../../../geo/supports/expectedLoad.ts'
import { GRAVITY } from '../../../geo/supports/load/wire.ts'
import type { HeldPlanting } from '../../../geo/supports/run.ts'

const held = (more: Partial<HeldPlanting> = {}): HeldPlanting => ({
  planting: 'p',
  crop: 'tomato',
  family: 'Solanaceae',
  variety: 'red',
  heldM: 10,
  plants: 20,
  groundWidthM: 1.2,
  pickedKg: 0,
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
const loadWith = (vines: number | null, yields: Partial<KnownYields>, ...plantings: HeldPlanting[]) =>
  expectedLoad({ held: plantings, lengthM: 10 }, { own: [], usual: [], ...yields }, vines)
/** Vines told to weigh nothing. */
const load = (yields: Partial<KnownYields>, ...plantings: HeldPlanting[]) => loadWith(0, yields, ...plantings)

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
    expect(told).toEqual({
      loadNPerM: DESIGN_LOAD_N_PER_M,
      fruitNPerM: null,
      vinesNPerM: null,
      from: 'design load',
    })
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

  // 12 kg/m of the one that is known are 117.7 N/m, above the 102.2 N/m of the design load.
  it('is never less than the known ones weigh where nothing is known of another', () => {
    const told = load({ own: [own('red', 360, 30)] }, held(), held({ planting: 'q', crop: 'bean', variety: 'long' }))
    expect(told.from).toBe('design load')
    expect(told.loadNPerM).toBeCloseTo(12 * GRAVITY, 9)
  })

  // 60 kg on 30 m are usual, 20 kg on the 10 m held. 5 kg picked so far tell nothing; 30 kg are more than is usual.
  it('is the larger of its own picks and what is usual', () => {
    const yields = { own: [own('red', 60, 30)] }
    expect(load(yields, held({ pickedKg: 5 }))).toMatchObject({ from: 'variety', loadNPerM: 2 * GRAVITY })
    expect(load(yields, held({ pickedKg: 30 }))).toMatchObject({ from: 'own picks', loadNPerM: 3 * GRAVITY })
  })

  it('is the design load for a planting just begun where nothing is usual, however little it gave so far', () => {
    expect(load({}, held({ pickedKg: 5 }))).toMatchObject({ from: 'design load', loadNPerM: DESIGN_LOAD_N_PER_M })
    // 200 kg on 10 m are 196 N/m.
    expect(load({}, held({ pickedKg: 200 })).loadNPerM).toBeCloseTo(20 * GRAVITY, 9)
  })

  // 2 kg of tomatoes a metre with as much of vines; 2 kg of beans with 5 kg; of a family not known as of beans.
  it.each([
    ['Solanaceae', null, 4],
    ['Cucurbitaceae', null, 4],
    ['Fabaceae', null, 7],
    ['Vitaceae', null, 7],
    ['Fabaceae', 0.5, 3],
  ] as const)('bears the vines of %s with their fruit (told %s): %d kg a metre', (family, vines, kgPerM) => {
    const told = loadWith(vines, { own: [own('red', 60, 30)] }, held({ family }))
    expect(told.loadNPerM).toBeCloseTo(kgPerM * GRAVITY, 9)
    expect(told.fruitNPerM).toBeCloseTo(2 * GRAVITY, 9)
    expect(told.vinesNPerM).toBeCloseTo((kgPerM - 2) * GRAVITY, 9)
  })

  // Tomatoes of 4 kg a metre until July, then beans of 1 kg with 2.5 kg of vines.
  it('tells fruit and vines of those that weigh most together', () => {
    const yields = { own: [own('red', 60, 30), { ...own('long', 30, 30), crop: 'bean' }] }
    const bean = held({ planting: 'q', crop: 'bean', family: 'Fabaceae', variety: 'long', setOut: '2025-07-01' })
    const told = loadWith(null, yields, held({ cleared: '2025-07-01' }), bean)
    expect(told.fruitNPerM).toBeCloseTo(2 * GRAVITY, 9)
    expect(told.vinesNPerM).toBeCloseTo(2 * GRAVITY, 9)
  })
})
