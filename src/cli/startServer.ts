import { createReadStream } from 'node:fs'
import { readFile, stat } from 'node:fs/promises'
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { extname, join, normalize, sep } from 'node:path'
import { pipeline } from 'node:stream'
import { policySent } from './pagePolicy.ts'

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.woff2': 'font/woff2',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json',
  '.txt': 'text/plain; charset=utf-8',
  '.map': 'application/json',
}

/** Serves a built page from a folder, on the loopback unless a host is named; port 0 takes a free one. */
export async function startServer(from: {
  dir: string
  port: number
  host?: string
}): Promise<{ url: string; close: () => Promise<void> }> {
  const { dir, port, host = '127.0.0.1' } = from
  const server = createServer((request, response) => {
    answer(dir, request, response).catch((error: unknown) => {
      if (!response.headersSent) response.writeHead(500, { 'Content-Type': 'text/plain' })
      response.end('The page could not be read.\n')
      console.error(error)
    })
  })
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject)
    server.listen(port, host, resolve)
  })
  const { port: taken } = server.address() as AddressInfo
  const named = host === '127.0.0.1' || host === '0.0.0.0' ? 'localhost' : host
  return { url: `http://${named}:${taken}/`, close: () => closeServer(server) }
}

function closeServer(server: Server): Promise<void> {
  server.closeAllConnections()
  return new Promise((resolve, reject) => server.close((error) => (error ? reject(error) : resolve())))
}

async function answer(dir: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
  if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(response, 405, 'Only reading is served.')
  const path = pathIn(dir, request.url ?? '/')
  const found = path && (await fileAt(path))
  if (!path || !found) return refuse(response, 404, 'There is no such page.')
  const brotli = acceptsBrotli(request) ? await fileAt(`${path}.br`) : null
  const policy = extname(path) === '.html' ? policySent(await readFile(path, 'utf8')) : policySent()
  const hashed = /-[\w-]{8,}\.\w+$/.test(path)
  response.writeHead(200, {
    'Content-Type': TYPES[extname(path)] ?? 'application/octet-stream',
    'Content-Length': (brotli ?? found).size,
    'Cache-Control': hashed ? 'public, max-age=31536000, immutable' : 'no-cache',
    'Content-Security-Policy': policy,
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Embedder-Policy': 'require-corp',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    Vary: 'Accept-Encoding',
    ...(brotli ? { 'Content-Encoding': 'br' } : {}),
  })
  if (request.method === 'HEAD') response.end()
  else pipeline(createReadStream(brotli ? `${path}.br` : path), response, () => undefined)
}

function refuse(response: ServerResponse, status: number, why: string): void {
  response.writeHead(status, { 'Content-Type': 'text/plain; charset=utf-8', 'Content-Security-Policy': policySent() })
  response.end(`${why}\n`)
}

/** The file asked for, or null where the address leads out of the folder. */
function pathIn(dir: string, url: string): string | null {
  let asked: string
  try {
    asked = decodeURIComponent(new URL(url, 'http://page').pathname)
  } catch {
    return null
  }
  if (asked.includes('\0')) return null
  const path = normalize(join(dir, asked.endsWith('/') ? `${asked}index.html` : asked))
  return path.startsWith(dir + sep) ? path : null
}

async function fileAt(path: string): Promise<{ size: number } | null> {
  const found = await stat(path).catch(() => null)
  return found?.isFile() ? { size: found.size } : null
}

function acceptsBrotli(request: IncomingMessage): boolean {
  return /(^|[\s,])br($|[\s,;])/.test(String(request.headers['accept-encoding'] ?? ''))
}
