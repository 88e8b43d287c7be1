import { batch, computed, effect, signal } from '@preact/signals'
import type { SheetName } from '../names.ts'
import { dayOf, seasonOfDay } from '../show/days.ts'
import { readAddress, type View, writeAddress } from './address.ts'
import { openFarm, phase, seasonStartMonth } from './farm.ts'

/** What is looked at: the sheet, today and the day looked at, and where the map looks (null until it has been moved or fitted). */
export const sheet = signal<SheetName>('ground')
export const today = signal<string>(dayOf(new Date()))
export const on = signal<string>(today.peek())
export const view = signal<View | null>(null)
/** Counts up whenever the address, and not the person's hand on the map, says where to look. */
export const viewAsked = signal(0)

/** The season that the day looked at belongs to. */
export const season = computed(() => seasonOfDay(on.value, seasonStartMonth.value))

/** Takes what the address says; says whether it named a day, so that a farm just opened knows to keep it. */
export function takeAddress(): { readonly day: boolean } {
  const address = readAddress(location.hash)
  if (address.sheet) sheet.value = address.sheet
  if (address.on) on.value = address.on
  if (address.view) {
    view.value = address.view
    viewAsked.value += 1
  }
  return { day: address.on !== null }
}

const leavesTodayOut = () => openFarm.value?.entry.invented === false
const addressNow = () =>
  writeAddress(sheet.value, on.value === today.value && leavesTodayOut() ? null : on.value, view.value)

/** Whoever looks at today goes on to the next day when it comes. */
export function followToday(): void {
  const look = () => {
    const [before, now] = [today.value, dayOf(new Date())]
    if (now === before) return
    batch(() => {
      today.value = now
      if (on.value === before) on.value = now
    })
  }
  setInterval(look, 30_000)
  addEventListener('focus', look)
  document.addEventListener('visibilitychange', look)
}

/** Goes to a sheet as a step that the browser's Back takes back. */
export function goToSheet(name: SheetName): void {
  if (name === sheet.value) return
  sheet.value = name
  globalThis.history.pushState(null, '', addressNow())
}

/**
 * Keeps address and page the same from now on: Back and an edited address move the page, moves write the address. Today is
 * left out of it, so that a page opened again tomorrow is at tomorrow; only the demo farm begins at a day of its own.
 */
export function followAddress(): void {
  const follow = () => {
    if (!takeAddress().day && leavesTodayOut()) on.value = today.value
  }
  addEventListener('popstate', follow)
  addEventListener('hashchange', follow)
  let waiting: ReturnType<typeof setTimeout> | undefined
  effect(() => {
    if (phase.value !== 'open') return
    const address = addressNow()
    clearTimeout(waiting)
    waiting = setTimeout(() => {
      if (location.hash !== address) globalThis.history.replaceState(null, '', address)
    }, 250)
  })
}
