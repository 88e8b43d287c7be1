import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { type DeskWorker, openDesk } from '../../../src/desk/client.ts'
import type { DeskEvent, ToPage, ToWorker } from '../../../src/desk/door.ts'

/** A worker that does nothing by itself. */
interface FakeWorker extends DeskWorker {
  readonly asked: ToWorker[]
  isEnded: boolean
  say(message: ToPage): void
}

function fakeWorker(): FakeWorker {
  const worker: FakeWorker = {
    asked: [],
    isEnded: false,
    onmessage: null,
    onerror: null,
    onmessageerror: null,
    postMessage: (message: ToWorker) => void worker.asked.push(message),
    terminate: () => {
      worker.isEnded = true
    },
    say: (message) => worker.onmessage?.call(worker as unknown as Worker, { data: message } as MessageEvent),
  }
  return worker
}

describe("the page's side of the door", () => {
  let workers: FakeWorker[]
  let said: DeskEvent[]
  const start = () => {
    const worker = fakeWorker()
    workers.push(worker)
    return worker
  }
  const desk = () => {
    const opened = openDesk(start)
    opened.listen((event) => said.push(event))
    return opened
  }
  beforeEach(() => {
    workers = []
    said = []
    vi.useFakeTimers()
  })
  afterEach(() => {
    vi.useRealTimers()
    vi.restoreAllMocks()
  })
  const open = { id: 'f', takeOver: false }

  it('starts one worker, on the first request, and hands each reply to its own request', async () => {
    const { ask } = desk()
    expect(workers).toHaveLength(0)
    const [list, photos] = [ask('listFarms', {}), ask('listPhotos', {})]
    expect(workers).toHaveLength(1)
    expect(workers[0]!.asked).toEqual([
      { n: 1, name: 'listFarms', ask: {} },
      { n: 2, name: 'listPhotos', ask: {} },
    ])
    workers[0]!.say({ n: 2, reply: { ok: true, value: ['photo'] } })
    workers[0]!.say({ n: 1, reply: { ok: true, value: ['farm'] } })
    expect(await list).toEqual({ ok: true, value: ['farm'] })
    expect(await photos).toEqual({ ok: true, value: ['photo'] })
  })

  it('settles all that waits when the worker fails, says so, and starts another for the next request', async () => {
    vi.spyOn(console, 'error').mockImplementation(() => undefined)
    const { ask } = desk()
    const waiting = [ask('listFarms', {}), ask('measure', { on: '2025-07-01' })]
    workers[0]!.onerror?.call(workers[0] as unknown as Worker, { message: 'out of memory' } as ErrorEvent)
    for (const reply of await Promise.all(waiting))
      expect(reply).toMatchObject({
        ok: false,
        fault: { kind: 'storage', detail: expect.stringContaining('out of memory') },
      })
    expect(said).toMatchObject([{ event: 'lost' }])
    expect(workers[0]!.isEnded).toBe(true)
    const next = ask('listFarms', {})
    workers[0]!.say({ n: 3, reply: { ok: true, value: 'from the dead' } })
    workers[1]!.say({ n: 3, reply: { ok: true, value: [] } })
    expect(await next).toEqual({ ok: true, value: [] })
  })

  it('ends a worker that lost its farm, so that it holds none of its files', async () => {
    const { ask } = desk()
    const waiting = ask('measure', { on: '2025-07-01' })
    workers[0]!.say({ event: 'lost', why: 'taken over' })
    expect(await waiting).toMatchObject({ ok: false, fault: { detail: 'taken over' } })
    expect(workers[0]!.isEnded).toBe(true)
    expect(said).toEqual([{ event: 'lost', why: 'taken over' }])
  })

  it('opens a farm anew in another worker when its opening hangs, once', async () => {
    const { ask } = desk()
    const opening = ask('openFarm', open)
    await vi.advanceTimersByTimeAsync(59_000)
    workers[0]!.say({ event: 'progress', progress: { doing: 'Fetching', done: 1, of: 2 } })
    await vi.advanceTimersByTimeAsync(59_000)
    expect(workers).toHaveLength(1)
    await vi.advanceTimersByTimeAsync(1_000)
    expect(workers).toHaveLength(2)
    expect(workers[0]!.isEnded).toBe(true)
    expect(workers[1]!.asked).toEqual([{ n: 1, name: 'openFarm', ask: { ...open, rebuild: true } }])
    await vi.advanceTimersByTimeAsync(60_000)
    expect(await opening).toMatchObject({ ok: false, fault: { kind: 'storage' } })
    expect(workers).toHaveLength(2)
    expect(workers[1]!.isEnded).toBe(true)
  })

  it('lets other requests take their time', async () => {
    const { ask } = desk()
    const reckoning = ask('yield', { season: 2025, seasons: [], of: null, cellM: 1, smoothM: 1 })
    await vi.advanceTimersByTimeAsync(600_000)
    workers[0]!.say({ n: 1, reply: { ok: false, fault: { kind: 'not found', field: null, record: null, detail: '' } } })
    expect(await reckoning).toMatchObject({ ok: false })
    expect(workers).toHaveLength(1)
  })

  it('stops a request, and ends a worker that does not stop', async () => {
    const { ask } = desk()
    const stopping = new AbortController()
    const reckoning = ask(
      'yield',
      { season: 2025, seasons: [], of: null, cellM: 1, smoothM: 1 },
      { signal: stopping.signal },
    )
    stopping.abort()
    expect(workers[0]!.asked.at(-1)).toEqual({ stop: 1 })
    await vi.advanceTimersByTimeAsync(60_000)
    expect(await reckoning).toMatchObject({ ok: false, fault: { kind: 'storage' } })
    expect(workers[0]!.isEnded).toBe(true)
  })
})
