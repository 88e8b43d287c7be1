import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { startEarly, startWorker } from '../../../src/desk/startWorker.ts'

interface Made {
  readonly name: string
  isEnded: boolean
  onerror: ((event: { preventDefault(): void }) => void) | null
}

describe('the desk’s worker', () => {
  let made: Made[]
  /** The page's own way here, as a browser tells it (W3C Navigation Timing 2). */
  let page: { workerStart: number; requestStart: number; responseStart: number }

  beforeEach(() => {
    made = []
    page = { workerStart: 0, requestStart: 10, responseStart: 15 }
    class FakeWorker implements Made {
      readonly name: string
      isEnded = false
      onerror: Made['onerror'] = null
      constructor(_url: URL, { name }: { name: string }) {
        this.name = name
        made.push(this)
      }
      terminate() {
        this.isEnded = true
      }
    }
    vi.stubGlobal('Worker', FakeWorker)
    vi.stubGlobal('location', { search: '?storage=idb' })
    vi.spyOn(performance, 'getEntriesByType').mockImplementation(() => [page] as unknown as PerformanceEntryList)
  })
  afterEach(() => {
    // None is left for the next test.
    startWorker()
    vi.unstubAllGlobals()
    vi.restoreAllMocks()
  })
  const startOf = ({ name }: Made) => JSON.parse(name) as unknown

  it('is the one that was started early, once', () => {
    startEarly()
    expect(made).toHaveLength(1)
    expect(startWorker()).toBe(made[0])
    // The next is another: the page asks for one where the first was ended.
    expect(startWorker()).toBe(made[1])
    expect(startOf(made[1]!)).toEqual({ storage: 'idb', isSlow: false })
  })

  it('is started again where the early one failed', () => {
    startEarly()
    const preventDefault = vi.fn()
    made[0]!.onerror!({ preventDefault })
    expect(preventDefault).toHaveBeenCalledOnce()
    expect(made[0]!.isEnded).toBe(true)
    expect(startWorker()).toBe(made[1])
  })

  it.each([
    ['a server that takes a fifth of a second to answer', { workerStart: 0, responseStart: 210 }, true],
    ['a quick one', { workerStart: 0, responseStart: 30 }, false],
    ['what the device keeps of the page, however slow', { workerStart: 3, responseStart: 900 }, false],
  ])('counts bytes as they come only where that is worth it: from %s', (_, told, isSlow) => {
    Object.assign(page, told)
    startEarly()
    expect(startOf(made[0]!)).toEqual({ storage: 'idb', isSlow })
  })
})
