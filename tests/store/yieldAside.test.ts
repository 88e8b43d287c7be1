import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Edit } from '../../geo/store/edit.ts'
import { ENGINE } from './harness.ts'
import { addBed, addField } from './keepFarm.ts'
import { abandon, makeDesk, type TestDesk } from './keepKeeper.ts'

const on = '2025-08-01'
const NEW = { name: 'An invented farm', units: 'metric', currency: null, timezone: null, origin: null } as const
const BEDS = 24
const KRIGED = { season: 2025, seasons: [2025], of: null, cellM: 1, method: 'kriging' } as const

const add = (kind: string, record: { readonly id: string } & Record<string, unknown>): Edit => ({
  do: 'add',
  kind,
  record: { extra: {}, ...record },
})

/** A tomato along the middle of each of the beds, one pick of it, more the further east the bed lies. */
function farm(): Edit[] {
  const beds = Array.from({ length: BEDS }, (_, n) => n)
  return [
    addField('f'),
    add('crops', { id: 'c', name: 'Tomato', family: 'Solanaceae' }),
    add('varieties', { id: 'v', crop: 'c', name: 'Round' }),
    ...beds.flatMap((n) => [
      addBed(`b${n}`, 'f', n),
      add('plantings', { id: `p${n}`, bed: `b${n}`, variety: 'v', set_out: '2025-05-01' }),
      add('picks', { id: `k${n}`, on, planting: `p${n}`, quantity: 5 + n + 3 * (n % 3), unit: 'kg', kg_per_unit: 1 }),
    ]),
  ]
}

describe.skipIf(ENGINE === 'server')('a surface through places, on a farm in hand', () => {
  let folder: string
  let desk: TestDesk
  /** The numbers of what was asked, in the order of its replies. */
  let order: number[]
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'selion-aside-'))
    desk = await makeDesk(folder, new Map())
    let nowMs = 1_750_000_000_000
    // Each look at the clock finds it 60 ms on: the work takes a breath wherever it may.
    Object.assign(desk.keeper, { nowMs: () => (nowMs += 60) })
    await desk.answer('makeFarm', NEW)
    await desk.answer('edit', { label: 'Beds', edits: farm(), on })
    const set = desk.replies.set.bind(desk.replies)
    desk.replies.set = (n, reply) => {
      order.push(n)
      return set(n, reply)
    }
  })
  afterAll(async () => {
    abandon(desk)
    await rm(folder, { recursive: true, force: true })
  })

  const replyTo = async (n: number) => {
    await expect.poll(() => desk.replies.has(n), { timeout: 15_000 }).toBe(true)
    return desk.replies.get(n)!
  }

  it('is reckoned while what is asked after it is answered, and while a step is kept', async () => {
    order = []
    const change: Edit = { do: 'change', kind: 'beds', id: 'b0', to: { name: 'First' } }
    desk.send({ n: 1, name: 'yieldPoints', ask: KRIGED })
    desk.send({ n: 2, name: 'measure', ask: { on } })
    desk.send({ n: 3, name: 'edit', ask: { label: 'Name', edits: [change], on } })
    const told = await replyTo(1)
    expect(order).toEqual([2, 3, 1])
    expect([2, 3].map((n) => desk.replies.get(n)!.ok)).toEqual([true, true])
    const { surface } = (told as { value: { surface: { points: number; values: Float64Array } } }).value
    expect(surface.points).toBeGreaterThan(100)
    expect([...surface.values].every((index) => index > 0.2 && index < 2)).toBe(true)
  })

  it('is given up when it is stopped, and the farm is as able as before', async () => {
    order = []
    desk.send({ n: 4, name: 'yieldPoints', ask: KRIGED })
    desk.send({ n: 5, name: 'measure', ask: { on } })
    await replyTo(5)
    expect(desk.replies.has(4)).toBe(false)
    desk.send({ stop: 4 })
    expect(await replyTo(4)).toMatchObject({ ok: false, fault: { kind: 'stopped' } })
    expect(await desk.ask('yieldPoints', KRIGED)).toMatchObject({ ok: true })
  })
})
