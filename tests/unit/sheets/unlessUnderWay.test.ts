import { describe, expect, it } from 'vitest'
import type { Edit } from '../../../src/desk/door.ts'
import { samenessOf, unlessUnderWay } from '../../../src/sheets/state/unlessUnderWay.ts'

const pick = (id: string, quantity: number): Edit[] => [
  { do: 'add', kind: 'picks', record: { id, extra: {}, quantity } },
  { do: 'add', kind: 'shares', record: { id: `${id} share`, extra: {}, pick: id, part: 1 } },
]

describe('a step that is asked for twice', () => {
  it('is the same whichever new ids its records got, and another where anything else is', () => {
    const one = samenessOf('Pick', pick('a', 6))
    expect(samenessOf('Pick', pick('b', 6))).toBe(one)
    expect(samenessOf('Pick', pick('b', 7))).not.toBe(one)
    expect(samenessOf('Picked', pick('a', 6))).not.toBe(one)
    const change = (id: string): Edit[] => [{ do: 'change', kind: 'beds', id, to: { name: 'x' } }]
    expect(samenessOf('Name', change('a'))).not.toBe(samenessOf('Name', change('b')))
  })

  it('is done once while it is under way, whoever asked again waits, and done again after that', async () => {
    let done = 0
    let settle: (() => void)[] = []
    const work = () => new Promise<number>((go) => settle.push(() => go(++done)))
    const [first, second] = [unlessUnderWay('x', work), unlessUnderWay('x', work)]
    const other = unlessUnderWay('y', work)
    const heard: string[] = []
    void second.then(() => heard.push('second'))
    expect(settle).toHaveLength(2)
    for (const go of settle) go()
    expect([await first, await other]).toEqual([1, 2])
    settle = []
    const third = unlessUnderWay('x', work)
    settle[0]!()
    expect([await third, heard]).toEqual([3, []])
  })

  it('may be asked for again after it failed', async () => {
    await expect(unlessUnderWay('z', () => Promise.reject(new Error('no')))).rejects.toThrow('no')
    expect(await unlessUnderWay('z', async () => 1)).toBe(1)
  })
})
