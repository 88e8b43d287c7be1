import type { WalkEvent } from '../../../../geo/track/fix.ts'

const NAME = 'selion-walk'
const EVENTS = 'events'

/** Where a walk is kept as it is walked, apart from the farm, so that a tab that is closed loses none of it. */
export interface TrackStore {
  read(farm: string): Promise<readonly WalkEvent[]>
  append(farm: string, event: WalkEvent): Promise<void>
  clear(farm: string): Promise<void>
}

export function openTrackStore(): TrackStore {
  let opened: Promise<IDBDatabase> | null = null
  const database = () => {
    opened ??= open()
    return opened
  }
  return {
    async read(farm) {
      const events = (await database()).transaction(EVENTS).objectStore(EVENTS)
      const rows = (await asked(events.index('farm').getAll(farm))) as { event: WalkEvent }[]
      return rows.map(({ event }) => event)
    },
    async append(farm, event) {
      const change = (await database()).transaction(EVENTS, 'readwrite', { durability: 'strict' })
      change.objectStore(EVENTS).add({ farm, event })
      await done(change)
    },
    async clear(farm) {
      const change = (await database()).transaction(EVENTS, 'readwrite')
      const events = change.objectStore(EVENTS)
      const keys = await asked(events.index('farm').getAllKeys(farm))
      for (const key of keys) events.delete(key)
      await done(change)
    },
  }
}

function open(): Promise<IDBDatabase> {
  const request = indexedDB.open(NAME, 1)
  request.onupgradeneeded = () => {
    request.result.createObjectStore(EVENTS, { autoIncrement: true }).createIndex('farm', 'farm')
  }
  return asked(request)
}

function asked<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((settle, fail) => {
    request.onsuccess = () => settle(request.result)
    request.onerror = () => fail(request.error ?? new Error('the walk could not be read'))
  })
}

function done(change: IDBTransaction): Promise<void> {
  return new Promise((settle, fail) => {
    change.oncomplete = () => settle()
    change.onabort = () => fail(change.error ?? new Error('the walk could not be written'))
  })
}
