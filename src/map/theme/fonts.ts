import sansExt from '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-wght-normal.woff2?url'
import sans from '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2?url'
import serifExt from '@fontsource-variable/source-serif-4/files/source-serif-4-latin-ext-wght-italic.woff2?url'
import serif from '@fontsource-variable/source-serif-4/files/source-serif-4-latin-wght-italic.woff2?url'
import type { StyleSpecification } from 'maplibre-gl'

/** What each file draws, as its stylesheet in the font's package says; any other character is drawn in a font of the device. */
const LATIN = [
  'U+0000-00FF',
  'U+0131',
  'U+0152-0153',
  'U+02BB-02BC',
  'U+02C6',
  'U+02DA',
  'U+02DC',
  'U+2000-206F',
  'U+20AC',
  'U+2122',
  'U+2191',
  'U+2193',
  'U+2212',
  'U+2215',
]
const LATIN_EXT = [
  'U+0100-02BA',
  'U+02BD-02C5',
  'U+02C7-02CC',
  'U+02CE-02D7',
  'U+02DD-02FF',
  'U+1D00-1DBF',
  'U+1E00-1E9F',
  'U+1EF2-1EFF',
  'U+2113',
  'U+2C60-2C7F',
  'U+A720-A7FF',
]

/** The bundled fonts in which the map's words are drawn. */
export const FONT_FACES: NonNullable<StyleSpecification['font-faces']> = {
  'Selion serif': [
    { url: serif, 'unicode-range': LATIN },
    { url: serifExt, 'unicode-range': LATIN_EXT },
  ],
  'Selion sans': [
    { url: sans, 'unicode-range': LATIN },
    { url: sansExt, 'unicode-range': LATIN_EXT },
  ],
}
