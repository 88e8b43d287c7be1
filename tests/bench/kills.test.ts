import { expect, it } from 'vitest'
import { seededRandom } from '../../geo/yield/seededRandom.ts'
import { removeProfile } from '../browser/harness.ts'
import { keepPage, pickAndKill } from '../browser/offlineActs.ts'
import { useFigures } from './figures.ts'

const tell = useFigures()

it('loses none of 200 confirmed picks, and doubles none, however often the browser is killed', {
  timeout: 3_600_000,
}, async () => {
  const kept = await keepPage()
  const { confirmed, there, kills } = await pickAndKill(kept, 50, 200, seededRandom(4)).finally(() =>
    removeProfile(kept.profile),
  )
  const lost = confirmed.filter((n) => !there.has(n))
  const doubled = [...there].filter(([, times]) => times > 1)
  tell('picks confirmed with no network', String(confirmed.length), '200')
  tell('times that the browser was killed', String(kills), '50')
  tell('lost / doubled', `${lost.length} / ${doubled.length}`, '0 / 0')
  tell('kept though not yet confirmed when the end came', String(there.size - confirmed.length), `≤ ${kills}`)
  expect([lost, doubled]).toEqual([[], []])
  expect(confirmed.length).toBeGreaterThanOrEqual(200)
  expect(there.size - confirmed.length).toBeLessThanOrEqual(kills)
})
