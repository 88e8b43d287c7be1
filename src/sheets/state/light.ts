import { computed, effect, signal } from '@preact/signals'

/** Day or night as the device has it, unless the person chose one. */
export type Light = 'device' | 'day' | 'night'

const KEPT = 'selion.light'
const dark = matchMedia('(prefers-color-scheme: dark)')
const deviceNight = signal(dark.matches)
dark.addEventListener('change', () => {
  deviceNight.value = dark.matches
})

const kept = localStorage.getItem(KEPT)
export const light = signal<Light>(kept === 'day' || kept === 'night' ? kept : 'device')
export const night = computed(() => (light.value === 'device' ? deviceNight.value : light.value === 'night'))

/** Paper is light, whatever the page is. */
const printing = signal(false)
addEventListener('beforeprint', () => {
  printing.value = true
})
addEventListener('afterprint', () => {
  printing.value = false
})
export const mapNight = computed(() => night.value && !printing.value)

effect(() => {
  if (light.value === 'device') {
    delete document.documentElement.dataset.light
    localStorage.removeItem(KEPT)
  } else {
    document.documentElement.dataset.light = light.value
    localStorage.setItem(KEPT, light.value)
  }
})

export function switchLight(): void {
  light.value = night.value ? 'day' : 'night'
}
