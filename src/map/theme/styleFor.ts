import type { GeoJSONSourceSpecification, LayerSpecification, StyleSpecification } from 'maplibre-gl'
import type { Ramp } from '../farmMap.ts'
import { broughtLayers } from './broughtLayers.ts'
import { groundLayers, outlineLayers } from './groundLayers.ts'
import { labelLayers } from './labelLayers.ts'
import { observationLayers, positionLayers, selectedLayers } from './markLayers.ts'
import { proposedLayers } from './proposedLayers.ts'
import { rowLayers } from './rowLayers.ts'
import { shadowLayers, sitingLayers } from './sitingLayers.ts'
import { structureGrounds, structureLayers } from './structureLayers.ts'
import { supportLayers } from './supportLayers.ts'
import { surfaceLayers, zoneLayers } from './surfaceLayers.ts'
import type { MapTheme } from './theme.ts'
import { canopyLayers, trunkLayers } from './treeLayers.ts'

/** Sources of the map, all of features in lon/lat: the farm's layers, the names set along their shapes, and what lies over them. */
export const SOURCES = [
  'fields',
  'beds',
  'rows',
  'trees',
  'canopies',
  'supports',
  'posts',
  'siting',
  'structures',
  'observations',
  'stretches',
  'field-names',
  'bed-names',
  'surface',
  'zones',
  'selected',
  'proposed',
  'position',
  'brought',
] as const
export type SourceName = (typeof SOURCES)[number]

/** Every layer of the map from below to above. The ids and their order are the same for every theme; photos go below the second. */
export const layersFor = (theme: MapTheme, ramp: Ramp): LayerSpecification[] => [
  ...groundLayers(theme),
  ...structureGrounds(theme),
  ...surfaceLayers(theme, ramp),
  ...shadowLayers(theme),
  ...canopyLayers(theme),
  ...rowLayers(theme),
  ...outlineLayers(theme),
  ...structureLayers(theme),
  ...supportLayers(theme),
  ...sitingLayers(theme),
  ...zoneLayers(theme),
  ...trunkLayers(theme),
  ...observationLayers(theme),
  ...selectedLayers(theme),
  ...broughtLayers(theme),
  ...labelLayers(theme),
  ...proposedLayers(theme),
  ...positionLayers(theme),
]

/** Tiles are cut to a grid of 5 mm (zoom 20) rather than the usual 2 cm, since beds are looked at from close by. */
const emptySource = (): GeoJSONSourceSpecification => ({
  type: 'geojson',
  data: { type: 'FeatureCollection', features: [] },
  maxzoom: 20,
  tolerance: 0.12,
})

/** The whole style, with empty sources. */
export const styleFor = (
  theme: MapTheme,
  ramp: Ramp,
  fontFaces: NonNullable<StyleSpecification['font-faces']>,
): StyleSpecification => ({
  version: 8,
  'font-faces': fontFaces,
  sources: Object.fromEntries(SOURCES.map((name) => [name, emptySource()])),
  layers: layersFor(theme, ramp),
  transition: { duration: 0, delay: 0 },
})
