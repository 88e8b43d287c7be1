/**
 * Bytes where the engine asks for a blob. A true one would go to the browser's own process and come back, only to be read
 * once.
 */
export function bytesAsBlob(bytes: Uint8Array): Blob {
  const blob = new Blob()
  return Object.assign(blob, { arrayBuffer: async () => bytes.buffer as ArrayBuffer })
}
