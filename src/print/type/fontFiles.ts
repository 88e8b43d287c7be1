import sans from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff?url'
import sansBold from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff?url'
import sansExt from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-400-normal.woff?url'
import sansExtBold from '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-700-normal.woff?url'
import cyrillic from '@fontsource/source-serif-4/files/source-serif-4-cyrillic-400-normal.woff?url'
import cyrillicBold from '@fontsource/source-serif-4/files/source-serif-4-cyrillic-600-normal.woff?url'
import greek from '@fontsource/source-serif-4/files/source-serif-4-greek-400-normal.woff?url'
import greekBold from '@fontsource/source-serif-4/files/source-serif-4-greek-600-normal.woff?url'
import serifItalic from '@fontsource/source-serif-4/files/source-serif-4-latin-400-italic.woff?url'
import serif from '@fontsource/source-serif-4/files/source-serif-4-latin-600-normal.woff?url'
import serifExtItalic from '@fontsource/source-serif-4/files/source-serif-4-latin-ext-400-italic.woff?url'
import serifExt from '@fontsource/source-serif-4/files/source-serif-4-latin-ext-600-normal.woff?url'
import vietnamese from '@fontsource/source-serif-4/files/source-serif-4-vietnamese-400-normal.woff?url'
import type { Face } from '../marks.ts'

/** Each face's files, the first that has a letter is the one that sets it. The sans has no Cyrillic, Greek or Vietnamese: the serif's stand in. */
export const FONT_FILES: Readonly<Record<Face, readonly string[]>> = {
  sans: [sans, sansExt, cyrillic, greek, vietnamese],
  sansBold: [sansBold, sansExtBold, cyrillicBold, greekBold, vietnamese],
  serif: [serif, serifExt, cyrillicBold, greekBold, vietnamese],
  serifItalic: [serifItalic, serifExtItalic, cyrillic, greek, vietnamese],
}
