import { describe, expect, it } from 'vitest'
import { memoryShelf } from '../../../geo/keep/shelf.ts'
import { openLog } from '../../../geo/keep/stepLog.ts'
import type { Step } from '../../../geo/store/step.ts'

const step = (n: number): Step => ({
  id: `s${n}`,
  clock: String(n).padStart(15, '0'),
  device: 'd',
  author: null,
  label: `step ${n} – größer`,
  undoes: null,
  changes: [{ kind: 'fields', record: `f${n}`, before: null, after: { id: `f${n}`, name: 'Südfeld', ord: n } }],
})
const ids = (steps: readonly Step[]) => steps.map((s) => s.id)

describe('the step log', () => {
  it('gives back what was put in, over several openings and segments', async () => {
    const files = new Map<string, Uint8Array>()
    const log = await openLog(memoryShelf(files), 'farm')
    await log.append([{ plane: [7.25, 46.5] }, { step: step(1) }])
    await log.append([{ step: step(2) }])
    log.turn()
    log.turn()
    await log.append([{ step: step(3) }])
    const again = await openLog(memoryShelf(files), 'farm')
    await again.append([{ step: step(4) }, { step: step(4) }])
    expect(await again.segments()).toEqual([1, 2])
    expect(await again.read(1)).toEqual({
      plane: [7.25, 46.5],
      steps: [step(1), step(2), step(3), step(4)],
      after: null,
      spoilt: 0,
    })
    expect(await again.read(2)).toMatchObject({ after: 's2', steps: [step(3), step(4)] })
  })

  it('cut short anywhere, keeps what stands before the cut and goes on behind it', async () => {
    const files = new Map<string, Uint8Array>()
    const log = await openLog(memoryShelf(files), 'farm')
    const lengths: number[] = []
    for (let n = 1; n <= 3; n++) {
      await log.append([{ step: step(n) }])
      lengths.push(files.get('farm/steps-000001')!.length)
    }
    const whole = files.get('farm/steps-000001')!
    for (let cut = 0; cut <= whole.length; cut += 7) {
      const left = new Map([['farm/steps-000001', whole.slice(0, cut)]])
      const kept = lengths.filter((length) => length <= cut).map((_, i) => `s${i + 1}`)
      const ended = await openLog(memoryShelf(left), 'farm')
      expect(ids((await ended.read(1)).steps)).toEqual(kept)
      await ended.append([{ step: step(9) }])
      const opened = await openLog(memoryShelf(left), 'farm')
      expect(ids((await opened.read(1)).steps)).toEqual([...kept, 's9'])
    }
  })

  it('begins a new segment when a write failed half way', async () => {
    const files = new Map<string, Uint8Array>()
    const shelf = memoryShelf(files)
    let room = true
    const log = await openLog(
      {
        ...shelf,
        append: async (name, bytes) => {
          await shelf.append(name, room ? bytes : bytes.subarray(0, 20))
          if (!room) throw new Error('no room')
        },
      },
      'farm',
    )
    await log.append([{ step: step(1) }])
    room = false
    await expect(log.append([{ step: step(2) }])).rejects.toThrow('no room')
    room = true
    await log.append([{ step: step(3) }])
    expect(ids((await log.read(1)).steps)).toEqual(['s1', 's3'])
    expect((await log.read(2)).after).toBe('s1')
  })

  it('counts records that are spoilt and reads on behind them', async () => {
    const files = new Map<string, Uint8Array>()
    const log = await openLog(memoryShelf(files), 'farm')
    for (let n = 1; n <= 3; n++) await log.append([{ step: step(n) }])
    const bytes = files.get('farm/steps-000001')!
    const at = new TextDecoder('latin1').decode(bytes).indexOf('"s2"')
    bytes[at + 1] = 0x78
    const read = await log.read(1)
    expect(read.spoilt).toBe(1)
    expect(ids(read.steps)).toEqual(['s1', 's3'])
  })
})
