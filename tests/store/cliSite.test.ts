import { writeFile } from 'node:fs/promises'
import { beforeAll, expect, it } from 'vitest'
import { makeDemoRecords } from '../../fixtures/demo/makeDemo.ts'
import { selion, useFolder, writeFiles } from './cliRun.ts'
import { asked, PLAN, wrongs } from './sitingPlan.ts'

const folder = useFolder()
beforeAll(() => writeFiles(folder('demo'), makeDemoRecords()))
const plan = async (value: unknown) => {
  const path = folder('plan.json')
  await writeFile(path, typeof value === 'string' ? value : JSON.stringify(value))
  return path
}

it('answers with the contract’s keys', async () => {
  const { code, out, error } = await selion(
    'site',
    folder('demo'),
    '--plan',
    await plan(PLAN),
    '--gap',
    '0.5',
    '--json',
  )
  expect([code, error]).toEqual([0, ''])
  const answer = JSON.parse(out)
  for (const key of ['status', 'gap', 'rows', 'cost', 'payback_year', 'reasons', 'binding'])
    expect(answer).toHaveProperty(key)
  expect(Object.keys(answer.cost)).toEqual(['total', 'by_year', 'instead_total'])
  expect(answer.rows[0]).toMatchObject({
    bed: expect.any(String),
    side: expect.any(String),
    length_m: expect.any(Number),
    built: expect.any(Number),
  })
  expect(Object.keys(answer).at(-1)).toBe('materials')
  expect(Object.keys(answer.materials[0])).toEqual(['year', 'parts', 'parts_cost', 'minutes', 'labour_cost'])
  expect(answer.materials[0].parts[0]).toEqual({
    use: expect.any(String),
    part: expect.any(String),
    unit: expect.any(String),
    lasts_seasons: expect.anything(),
    needed: expect.any(Number),
    bought: expect.any(Number),
    cost: expect.any(Number),
  })
  expect(wrongs(answer, asked())).toEqual([])
})

it('names what is wrong with a plan file by its field', async () => {
  const faults = async (value: unknown) => {
    const { code, error } = await selion('site', folder('demo'), '--plan', await plan(value), '--json')
    return [code, error]
  }
  expect(await faults('{"from": 20')).toEqual([1, expect.stringContaining('plan.json')])
  expect(await faults({ ...PLAN, years: 0 })).toEqual([1, expect.stringContaining('years')])
  expect(await faults({ ...PLAN, system: 'nothing' })).toEqual([
    1,
    expect.stringMatching(/system.*no support system "nothing"/),
  ])
  expect(await faults({ ...PLAN, fix: [{ bed: 'none', side: 'left' }] })).toEqual([
    1,
    expect.stringMatching(/fix.*no bed "none"/),
  ])
  expect(await faults({ ...PLAN, weights: { sunshine: 1 } })).toEqual([1, expect.stringContaining('weights')])
  expect((await selion('site', folder('demo'))).code).toBe(2)
})
