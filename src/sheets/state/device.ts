import { signal } from '@preact/signals'
import { isFromKeeper, type ToKeeper } from '../../offline/talk.ts'

/** How far this page can do without a network. */
export type Kept =
  | { readonly is: 'not yet' }
  | { readonly is: 'coming'; readonly done: number; readonly of: number }
  | { readonly is: 'whole' }
  | { readonly is: 'barred'; readonly why: string }

/** Chromium's event before it offers to install a page; other browsers have an entry in a menu of their own. */
interface InstallOffer extends Event {
  prompt(): Promise<unknown>
  readonly userChoice: Promise<{ readonly outcome: 'accepted' | 'dismissed' }>
}

export const kept = signal<Kept>({ is: 'not yet' })
/** True when a newer build lies ready and waits to be shown; `others` is how many other tabs stand in its way, once known. */
export const newer = signal<{ readonly others: number } | null>(null)
export const network = signal(navigator.onLine)
/** True when the page stands on the device like a program. */
export const installed = signal(matchMedia('(display-mode: standalone)').matches)
export const installOffer = signal<InstallOffer | null>(null)

/** Which build this page is of; empty in development, where nothing is kept. */
export const BUILD = document.querySelector<HTMLMetaElement>('meta[name="selion-build"]')?.content ?? ''

const HOUR_MS = 3_600_000

addEventListener('online', () => {
  network.value = true
})
addEventListener('offline', () => {
  network.value = false
})
addEventListener('appinstalled', () => {
  installed.value = true
  installOffer.value = null
})
addEventListener('beforeinstallprompt', (event) => {
  event.preventDefault()
  installOffer.value = event as InstallOffer
})

/** Asks the person, in the browser's own words, whether the page may be put on the device. */
export async function install(): Promise<void> {
  const offer = installOffer.value
  if (!offer) return
  installOffer.value = null
  await offer.prompt()
  if ((await offer.userChoice).outcome === 'dismissed') installOffer.value = offer
}

let registration: ServiceWorkerRegistration | null = null
let takingOver = false

/** Has every file of this page kept on the device, and hears of newer ones. To be called once, when there is time for it. */
export async function keepPage(): Promise<void> {
  const workers = navigator.serviceWorker as ServiceWorkerContainer | undefined
  if (!workers) {
    kept.value = { is: 'barred', why: 'This browser, or this way of opening the page, keeps no pages.' }
    return
  }
  workers.addEventListener('message', ({ data }) => {
    if (!isFromKeeper(data)) return
    if ('othersOpen' in data) newer.value = { others: data.othersOpen }
    else if (kept.value.is !== 'whole') kept.value = { is: 'coming', ...data.keeping }
  })
  workers.addEventListener('controllerchange', () => {
    if (takingOver) location.reload()
  })
  try {
    registration = await workers.register(`${import.meta.env.BASE_URL}sw.js`, { updateViaCache: 'none' })
  } catch (error) {
    kept.value = { is: 'barred', why: (error as Error).message }
    return
  }
  if (registration.active) kept.value = { is: 'whole' }
  follow(registration.installing)
  if (registration.waiting && registration.active) newer.value = { others: 0 }
  registration.addEventListener('updatefound', () => follow(registration!.installing))
  let lookedMs = Date.now()
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible' || Date.now() - lookedMs < HOUR_MS) return
    lookedMs = Date.now()
    void lookForNewer()
  })
}

/** Looks now whether there is a newer build. Without a network nothing happens. */
export async function lookForNewer(): Promise<void> {
  await registration?.update().catch(() => undefined)
}

function follow(worker: ServiceWorker | null): void {
  if (!worker) return
  worker.addEventListener('statechange', () => {
    if (worker.state === 'activated') kept.value = { is: 'whole' }
    // A first one is never kept waiting; it is followed by `activated`.
    if (worker.state === 'installed' && registration?.active) newer.value = { others: 0 }
    if (worker.state === 'redundant' && kept.value.is !== 'whole')
      kept.value = {
        is: 'barred',
        why: 'Its files could not be fetched whole. That is tried again when the page is opened next with a network.',
      }
  })
}

/** Loads the page anew as the newer build, unless another tab or window still shows this one. */
export function takeNewer(): void {
  takingOver = true
  registration?.waiting?.postMessage({ do: 'take over' } satisfies ToKeeper)
}
