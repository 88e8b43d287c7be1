import { joined, type Shelf } from '../../../geo/keep/shelf.ts'

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
