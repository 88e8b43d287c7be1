import type { Page } from 'playwright-core'

/** How a database in IndexedDB is damaged: records of its store are removed. */
export type IdbWreck = 'WAL gone' | 'a table gone' | 'PG_VERSION gone' | 'all gone'

/** Damages a database that nobody has open; the page is any page of the site. */
export function wreckIdb(page: Page, name: string, how: IdbWreck): Promise<void> {
  return page.evaluate(
    async ([name, how]) => {
      const asked = <T>(request: IDBRequest<T>) =>
        new Promise<T>((resolve, reject) => {
          request.onsuccess = () => resolve(request.result)
          request.onerror = () => reject(request.error)
        })
      const db = await asked(indexedDB.open(`/pglite/${name}`))
      const store = db.transaction('FILE_DATA', 'readwrite').objectStore('FILE_DATA')
      const keys = (await asked(store.getAllKeys())) as string[]
      if (how === 'a table gone') {
        const tables = keys.filter((key) => /\/base\/\d+\/\d+$/.test(key))
        const sizes = new Map<string, number>()
        for (const key of tables)
          sizes.set(key, ((await asked(store.get(key))) as { contents: Uint8Array }).contents.length)
        const largest = tables.reduce((a, b) => (sizes.get(b)! > sizes.get(a)! ? b : a))
        await asked(store.delete(largest))
      }
      for (const key of keys) {
        const isHit =
          how === 'all gone' ||
          (how === 'WAL gone' && /\/pg_wal\/[0-9A-F]{24}$/.test(key)) ||
          (how === 'PG_VERSION gone' && key === `/pglite/${name}/PG_VERSION`)
        if (isHit) await asked(store.delete(key))
      }
      db.close()
    },
    [name, how] as const,
  )
}

type Kept = [IDBValidKey, unknown][]

/** Takes all records of a database's store aside in the page, for `putBack`. */
export function takeAside(page: Page, name: string): Promise<void> {
  return page.evaluate(async (name) => {
    const asked = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(request.error)
      })
    const db = await asked(indexedDB.open(`/pglite/${name}`))
    const store = db.transaction('FILE_DATA', 'readonly').objectStore('FILE_DATA')
    const keys = await asked(store.getAllKeys())
    const values = await asked(store.getAll())
    db.close()
    ;(globalThis as unknown as { kept: Kept }).kept = keys.map((key, i) => [key, values[i]])
  }, name)
}

/** Makes a database what it was when it was taken aside, as if its last writes had never reached the disk. */
export function putBack(page: Page, name: string): Promise<void> {
  return page.evaluate(async (name) => {
    const asked = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(request.error)
      })
    const db = await asked(indexedDB.open(`/pglite/${name}`))
    const transaction = db.transaction('FILE_DATA', 'readwrite')
    const store = transaction.objectStore('FILE_DATA')
    await asked(store.clear())
    for (const [key, value] of (globalThis as unknown as { kept: Kept }).kept) await asked(store.put(value, key))
    await new Promise((done) => {
      transaction.oncomplete = done
    })
    db.close()
  }, name)
}
