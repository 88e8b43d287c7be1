import { computed, effect, signal } from '@preact/signals'
import type { SheetName } from '../names.ts'
import { dayOf, seasonOfDay } from '../show/days.ts'
import { readAddress, type View, writeAddress } from './address.ts'
import { phase, seasonStartMonth } from './farm.ts'

/** What is looked at: the sheet, the day, and where the map looks (null until it has been moved or fitted). */
export const sheet = signal<SheetName>('ground')
export const on = signal<string>(dayOf(new Date()))
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

/** Goes to a sheet as a step that the browser's Back takes back. */
export function goToSheet(name: SheetName): void {
  if (name === sheet.value) return
  sheet.value = name
  globalThis.history.pushState(null, '', writeAddress(name, on.value, view.value))
}

/** Keeps address and page the same from now on: Back and an edited address move the page, moves write the address. */
export function followAddress(): void {
  addEventListener('popstate', takeAddress)
  addEventListener('hashchange', takeAddress)
  let waiting: ReturnType<typeof setTimeout> | undefined
  effect(() => {
    if (phase.value !== 'open') return
    const address = writeAddress(sheet.value, on.value, view.value)
    clearTimeout(waiting)
    waiting = setTimeout(() => {
      if (location.hash !== address) globalThis.history.replaceState(null, '', address)
    }, 250)
  })
}
