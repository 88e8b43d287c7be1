import type { FeatureCollection, MultiPolygon, Polygon } from 'geojson'
import type { GeoJSONSource, Map as MapLibre } from 'maplibre-gl'
import type { Surface } from './farmMap.ts'

type Piece = Polygon | MultiPolygon

export interface SurfaceSource {
  /** Shows a surface, or none. Settles when the map's worker has taken new pieces in. */
  set(surface: Surface | null): Promise<void>
  /** The pieces that are shown, each with its `value`; null where it has nothing to tell. */
  features(): FeatureCollection<Piece, { value: number | null }>
}

/**
 * Keeps the source of coloured ground. Values are states of its features and no properties of them: a surface of many
 * thousand pieces that is only smoothed anew is coloured anew without its tiles being cut again.
 */
export function makeSurfaceSource(map: MapLibre): SurfaceSource {
  const source = 'surface'
  let shown: Surface | null = null
  return {
    async set(surface) {
      const before = shown
      shown = surface
      const values = surface?.values ?? []
      const isFresh = surface?.pieces !== before?.pieces
      if (isFresh) map.removeFeatureState({ source })
      for (let id = 0; id < values.length; id += 1)
        if (isFresh || !Object.is(values[id], before?.values[id]))
          map.setFeatureState({ source, id }, { value: toldValue(values[id]) })
      if (!isFresh) return
      const features = (surface?.pieces ?? []).map((geometry, id) => ({
        type: 'Feature' as const,
        id,
        geometry,
        properties: {},
      }))
      await map.getSource<GeoJSONSource>(source)!.setData({ type: 'FeatureCollection', features })
    },
    features: () => ({
      type: 'FeatureCollection',
      features: (shown?.pieces ?? []).map((geometry, k) => ({
        type: 'Feature',
        geometry,
        properties: { value: toldValue(shown!.values[k]) },
      })),
    }),
  }
}

const toldValue = (value: number | undefined): number | null =>
  value === undefined || Number.isNaN(value) ? null : value
