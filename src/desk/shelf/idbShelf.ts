import { joined, type KeptFile, type Shelf } from '../../../geo/keep/shelf.ts'

const STORE = 'chunks'

/**
 * A shelf in IndexedDB, for browsers without access handles. A file is its chunks, keyed by name and number. Writing
 * asks for strict durability: the promise resolves when the bytes are on the disk.
 */
export async function idbShelf(name: string): Promise<Shelf> {
  const db = await openDatabase(name)

  async function writing(work: (store: IDBObjectStore) => Promise<void> | void): Promise<void> {
    const transaction = db.transaction(STORE, 'readwrite', { durability: 'strict' })
    const finished = new Promise<void>((resolve, reject) => {
      transaction.oncomplete = () => resolve()
      transaction.onabort = () => reject(transaction.error)
    })
    await work(transaction.objectStore(STORE))
    await finished
  }
  const reading = () => db.transaction(STORE, 'readonly').objectStore(STORE)

  return {
    async list(folder) {
      const names = new Set<string>()
      const last = '\uffff'
      for (const key of await asked(reading().getAllKeys(IDBKeyRange.bound([folder], [folder + last]))))
        names.add((key as [string, number])[0])
      return [...names].sort()
    },
    async read(file) {
      const chunks = await asked<Uint8Array[]>(reading().getAll(chunksOf(file)))
      return chunks.length > 0 ? joined(chunks) : null
    },
    write: (file, bytes) =>
      writing((store) => {
        store.delete(chunksOf(file))
        store.put(bytes.slice(), [file, 0])
      }),
    append: (file, bytes) =>
      writing(async (store) => {
        const cursor = await asked(store.openKeyCursor(chunksOf(file), 'prev'))
        const last = cursor ? (cursor.key as [string, number])[1] : -1
        store.put(bytes.slice(), [file, last + 1])
      }),
    remove: (file) => writing((store) => void store.delete(chunksOf(file))),
    async open(file) {
      const keys = await asked(reading().getAllKeys(chunksOf(file)))
      if (keys.length === 0) return null
      const chunk = async (n: number) => (await asked<Uint8Array<ArrayBuffer>>(reading().get(keys[n]!)))!
      const first = await chunk(0)
      const last = keys.length === 1 ? first : await chunk(keys.length - 1)
      return chunkedFile(first.length, (keys.length - 1) * first.length + last.length, chunk)
    },
    async begin(file) {
      await writing((store) => void store.delete(chunksOf(file)))
      let count = 0
      let held: Uint8Array[] = []
      let heldBytes = 0
      /** Chunks are all of one length but the last, so that any place is found by reckoning. */
      const put = async (bytes: Uint8Array) => {
        const key = [file, count++]
        await writing((store) => void store.put(bytes, key))
      }
      return {
        async append(bytes) {
          for (let at = 0; at < bytes.length; ) {
            const part = bytes.slice(at, at + CHUNK_BYTES - heldBytes)
            held.push(part)
            heldBytes += part.length
            at += part.length
            if (heldBytes < CHUNK_BYTES) continue
            await put(joined(held))
            held = []
            heldBytes = 0
          }
        },
        async finish() {
          if (heldBytes > 0 || count === 0) await put(joined(held))
        },
        async abandon() {
          await writing((store) => void store.delete(chunksOf(file)))
        },
      }
    },
  }
}

const CHUNK_BYTES = 1024 * 1024

/** A file whose chunks are all `size` long but the last. */
function chunkedFile(size: number, bytes: number, chunk: (n: number) => Promise<Uint8Array<ArrayBuffer>>): KeptFile {
  return {
    bytes,
    async read(at, length) {
      const end = Math.min(bytes, at + length)
      const parts: Uint8Array[] = []
      for (let n = Math.floor(at / size); n * size < end; n += 1)
        parts.push((await chunk(n)).subarray(Math.max(0, at - n * size), end - n * size))
      return joined(parts)
    },
  }
}

const chunksOf = (file: string) => IDBKeyRange.bound([file, 0], [file, Number.MAX_SAFE_INTEGER])

function openDatabase(name: string): Promise<IDBDatabase> {
  const opening = indexedDB.open(name, 1)
  opening.onupgradeneeded = () => opening.result.createObjectStore(STORE)
  return asked(opening)
}

/** What a request gives, as a promise. */
export function asked<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error)
  })
}
