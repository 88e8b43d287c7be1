import { computed, effect, signal } from '@preact/signals'
import { type Look, PALETTES } from '../../map/theme/palette.ts'

/** Day or night as the device has it, unless the person chose a look. */
export type Light = 'device' | Look

const KEPT = 'selion.light'
const dark = matchMedia('(prefers-color-scheme: dark)')
const deviceNight = signal(dark.matches)
dark.addEventListener('change', () => {
  deviceNight.value = dark.matches
})

const kept = localStorage.getItem(KEPT)
export const light = signal<Light>(kept === 'day' || kept === 'night' || kept === 'sun' ? kept : 'device')
export const look = computed<Look>(() =>
  light.value === 'device' ? (deviceNight.value ? 'night' : 'day') : light.value,
)

/** Paper is light, whatever the page is. */
const printing = signal(false)
addEventListener('beforeprint', () => {
  printing.value = true
})
addEventListener('afterprint', () => {
  printing.value = false
})
export const mapLook = computed<Look>(() => (printing.value ? 'day' : look.value))

effect(() => {
  if (light.value === 'device') {
    delete document.documentElement.dataset.light
    localStorage.removeItem(KEPT)
  } else {
    document.documentElement.dataset.light = light.value
    localStorage.setItem(KEPT, light.value)
  }
})

/** What stands about the page on a phone takes the paper's colour too. */
effect(() => {
  for (const meta of document.querySelectorAll<HTMLMetaElement>('meta[name="theme-color"]'))
    meta.content = PALETTES[look.value].paper
})

export function showIn(chosen: Look): void {
  light.value = chosen
}

/** What there was before the look for the sun. */
let before: Light = 'device'

/** To the look for strong sun, and back. */
export function switchSun(): void {
  if (light.value === 'sun') light.value = before
  else {
    before = light.value
    light.value = 'sun'
  }
}
