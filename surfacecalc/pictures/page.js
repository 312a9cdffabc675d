"use strict";
// Shows the piece on a plain canvas: parallel projection, a depth for every pixel, so hidden parts
// are hidden exactly. Patterns lie on the picture as they do in a drawing, not on the wood.
(() => {
  const START = { turn: 35, tilt: 28, zoom: 1 };
  const STEP = 10; // degrees for a key
  const PX_IN_MM = 96 / 25.4;
  const STILL_PIXELS = 4e6; // pixels of a picture at rest, and while it turns
  const TURNING_PIXELS = 6e5;
  const TURN_TIME = 260; // milliseconds to a chosen side
  const LIGHT = [-0.35, 0.45, 0.82]; // right, up, towards the viewer: it stays with the viewer
  const MARGIN = 0.94;
  const STEEP = 6; // depth over width up to which a slope does not count as a rim

  const canvas = document.getElementById("piece");
  const seen = document.getElementById("seen");
  const buttons = [...document.querySelectorAll("[data-turn]")];
  const model = JSON.parse(document.getElementById("model").textContent);

  const unpack = (text, Kind) => {
    const bytes = Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
    return new Kind(bytes.buffer);
  };
  const points = unpack(model.points, Float32Array);
  const normals = unpack(model.normals, Float32Array);
  const triangles = unpack(model.triangles, Uint32Array);
  const zones = unpack(model.zones, Uint16Array);
  const edges = unpack(model.edges, Float32Array);

  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let k = 0; k < points.length; k++) {
    low[k % 3] = Math.min(low[k % 3], points[k]);
    high[k % 3] = Math.max(high[k % 3], points[k]);
  }
  const middle = low.map((value, k) => (value + high[k]) / 2);
  const tall = (high[2] - low[2]) / 2;
  let reach = 1; // how far the piece swings out when it is turned
  for (let k = 0; k < points.length; k += 3) {
    reach = Math.max(reach, Math.hypot(points[k] - middle[0], points[k + 1] - middle[1]));
  }
  const radius = Math.hypot(reach, tall);

  let view = { ...START };
  let pending = 0;
  let settling = 0;

  const rgb = (colour) => [1, 3, 5].map((k) => parseInt(colour.slice(k, k + 2), 16));

  // How much ink lies on each pixel of a look's tile.
  const tiles = new Map();
  const tile = (look, ratio) => {
    const key = look + "/" + ratio;
    if (tiles.has(key)) return tiles.get(key);
    const { size, strokes, dots } = model.looks[look];
    const side = Math.max(2, Math.round(size * PX_IN_MM * ratio));
    const sheet = document.createElement("canvas");
    sheet.width = sheet.height = side;
    const pen = sheet.getContext("2d", { willReadFrequently: true });
    pen.lineWidth = Math.max(1, model.line * PX_IN_MM * ratio);
    for (const stroke of strokes) {
      pen.beginPath();
      for (const [x, y] of stroke) pen.lineTo(x * side, y * side);
      pen.stroke();
    }
    for (const [x, y, r] of dots) {
      pen.beginPath();
      pen.arc(x * side, y * side, r * side, 0, 2 * Math.PI);
      pen.fill();
    }
    const data = pen.getImageData(0, 0, side, side).data;
    const ink = new Float32Array(side * side);
    for (let k = 0; k < ink.length; k++) ink[k] = data[4 * k + 3] / 255;
    const made = { side, ink };
    tiles.set(key, made);
    return made;
  };

  const axes = () => {
    const turn = (view.turn * Math.PI) / 180;
    const tilt = (view.tilt * Math.PI) / 180;
    const [s, c, st, ct] = [Math.sin(turn), Math.cos(turn), Math.sin(tilt), Math.cos(tilt)];
    return { right: [c, s, 0], up: [-s * st, c * st, ct], toward: [s * ct, -c * ct, st] };
  };

  const dot = (a, values, k) => a[0] * values[k] + a[1] * values[k + 1] + a[2] * values[k + 2];

  // Right, down and nearness on the picture of every third value.
  const project = (values, { right, up, toward }, scale, width, height) => {
    const placed = new Float32Array(values.length);
    const moved = [0, 0, 0];
    for (let k = 0; k < values.length; k += 3) {
      for (let axis = 0; axis < 3; axis++) moved[axis] = values[k + axis] - middle[axis];
      placed[k] = width / 2 + scale * dot(right, moved, 0);
      placed[k + 1] = height / 2 - scale * dot(up, moved, 0);
      placed[k + 2] = scale * dot(toward, moved, 0);
    }
    return placed;
  };

  const shades = ({ right, up, toward }) => {
    const length = Math.hypot(...LIGHT);
    const light = [0, 1, 2].map(
      (k) => (LIGHT[0] * right[k] + LIGHT[1] * up[k] + LIGHT[2] * toward[k]) / length);
    const found = new Float32Array(normals.length / 3);
    for (let k = 0; k < found.length; k++) {
      found[k] = Math.min(1, 0.78 + 0.26 * Math.max(0, dot(light, normals, 3 * k)));
    }
    return found;
  };

  // Fills one triangle where nothing nearer was filled before.
  const fill = (picture, placed, shade, number) => {
    const { width, height, depth, look, tone } = picture;
    const [i, j, k] = [triangles[3 * number], triangles[3 * number + 1], triangles[3 * number + 2]];
    const [ax, ay, az] = [placed[3 * i], placed[3 * i + 1], placed[3 * i + 2]];
    const [bx, by, bz] = [placed[3 * j], placed[3 * j + 1], placed[3 * j + 2]];
    const [cx, cy, cz] = [placed[3 * k], placed[3 * k + 1], placed[3 * k + 2]];
    const twice = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    if (twice >= 0) return; // turned away: rows run down, so outward corners run clockwise
    const top = Math.max(0, Math.ceil(Math.min(ay, by, cy) - 0.5));
    const bottom = Math.min(height - 1, Math.floor(Math.max(ay, by, cy) - 0.5));
    for (let y = top; y <= bottom; y++) {
      const level = y + 0.5;
      let from = Infinity;
      let to = -Infinity;
      const cross = (x1, y1, x2, y2) => {
        if (y1 === y2 || level < Math.min(y1, y2) || level > Math.max(y1, y2)) return;
        const x = x1 + ((level - y1) * (x2 - x1)) / (y2 - y1);
        if (x < from) from = x;
        if (x > to) to = x;
      };
      cross(ax, ay, bx, by);
      cross(bx, by, cx, cy);
      cross(cx, cy, ax, ay);
      const first = Math.max(0, Math.ceil(from - 0.5));
      const last = Math.min(width - 1, Math.floor(to - 0.5));
      for (let x = first; x <= last; x++) {
        const u = ((x + 0.5 - ax) * (cy - ay) - (level - ay) * (cx - ax)) / twice;
        const v = ((bx - ax) * (level - ay) - (by - ay) * (x + 0.5 - ax)) / twice;
        const near = az + u * (bz - az) + v * (cz - az);
        const at = y * width + x;
        if (near > depth[at]) {
          depth[at] = near;
          look[at] = zones[number] + 1;
          tone[at] = shade[i] + u * (shade[j] - shade[i]) + v * (shade[k] - shade[i]);
        }
      }
    }
  };

  const paint = (picture, ratio) => {
    const { width, height, look, tone } = picture;
    const image = new ImageData(width, height);
    const data = new Uint32Array(image.data.buffer);
    const colours = model.looks.map((one) => [rgb(one.tint), rgb(one.ink)]);
    const made = model.looks.map((_, k) => tile(k, ratio));
    for (let y = 0, at = 0; y < height; y++) {
      for (let x = 0; x < width; x++, at++) {
        if (!look[at]) {
          data[at] = 0xffffffff;
          continue;
        }
        const k = look[at] - 1;
        const { side, ink } = made[k];
        const share = ink[(y % side) * side + (x % side)];
        const [tint, line] = colours[k];
        const r = tint[0] * tone[at] * (1 - share) + line[0] * share;
        const g = tint[1] * tone[at] * (1 - share) + line[1] * share;
        const b = tint[2] * tone[at] * (1 - share) + line[2] * share;
        data[at] = 0xff000000 | (b << 16) | (g << 8) | r;
      }
    }
    return image;
  };

  // Draws edges wherever nothing is clearly nearer.
  const rule = (picture, image, placed, slack, thick) => {
    const { width, height, depth } = picture;
    const data = new Uint32Array(image.data.buffer);
    const [r, g, b] = rgb(model.ink);
    const colour = 0xff000000 | (b << 16) | (g << 8) | r;
    const reachable = thick - 1;
    for (let k = 0; k < placed.length; k += 6) {
      const [dx, dy] = [placed[k + 3] - placed[k], placed[k + 4] - placed[k + 1]];
      const steps = Math.max(1, Math.ceil(Math.max(Math.abs(dx), Math.abs(dy))));
      for (let step = 0; step <= steps; step++) {
        const share = step / steps;
        const near = placed[k + 2] + share * (placed[k + 5] - placed[k + 2]) + slack;
        const px = Math.floor(placed[k] + share * dx);
        const py = Math.floor(placed[k + 1] + share * dy);
        if (px < 1 || py < 1 || px >= width - 2 || py >= height - 2) continue;
        const at = py * width + px;
        if (near < depth[at] && near < depth[at - 1] && near < depth[at + 1] &&
            near < depth[at - width] && near < depth[at + width]) continue;
        for (let y = 0; y <= reachable; y++) {
          for (let x = 0; x <= reachable; x++) data[at + y * width + x] = colour;
        }
      }
    }
  };

  // Darkens the rim of whatever is clearly in front of what is next to it.
  const outline = (picture, image, jump, thick) => {
    const { width, height, depth, look } = picture;
    const data = new Uint32Array(image.data.buffer);
    const [r, g, b] = rgb(model.ink);
    const colour = 0xff000000 | (b << 16) | (g << 8) | r;
    const ways = [-thick, thick, -thick * width, thick * width];
    for (let y = thick; y < height - thick; y++) {
      for (let x = thick; x < width - thick; x++) {
        const at = y * width + x;
        if (look[at] && ways.some((way) => depth[at + way] < depth[at] - jump)) data[at] = colour;
      }
    }
  };

  // Puts the picture on the canvas, drawn smaller so that its lines are smooth.
  const put = (image, box) => {
    const sheet = document.createElement("canvas");
    sheet.width = image.width;
    sheet.height = image.height;
    sheet.getContext("2d").putImageData(image, 0, 0);
    const ratio = window.devicePixelRatio || 1;
    canvas.width = Math.max(1, Math.round(box.width * ratio));
    canvas.height = Math.max(1, Math.round(box.height * ratio));
    const pen = canvas.getContext("2d");
    pen.imageSmoothingQuality = "high";
    pen.drawImage(sheet, 0, 0, canvas.width, canvas.height);
    canvas.dataset.drawn = "yes";
  };

  const draw = (isTurning) => {
    const box = canvas.getBoundingClientRect();
    const wanted = (window.devicePixelRatio || 1) * (isTurning ? 1 : 3);
    const most = Math.sqrt((isTurning ? TURNING_PIXELS : STILL_PIXELS) / (box.width * box.height));
    const ratio = Math.min(wanted, most);
    const width = Math.max(1, Math.round(box.width * ratio));
    const height = Math.max(1, Math.round(box.height * ratio));
    const size = width * height;
    const picture = {
      width, height, depth: new Float32Array(size).fill(-Infinity),
      look: new Uint16Array(size), tone: new Float32Array(size),
    };
    const tilt = (Math.abs(view.tilt) * Math.PI) / 180;
    const needed = tall * Math.cos(tilt) + reach * Math.sin(tilt);
    const scale = MARGIN * view.zoom * Math.min(width / 2 / reach, height / 2 / needed);
    const frame = axes();
    const placed = project(points, frame, scale, width, height);
    const shade = shades(frame);
    for (let k = 0; k < zones.length; k++) fill(picture, placed, shade, k);
    const image = paint(picture, ratio);
    const lines = project(edges, frame, scale, width, height);
    const thick = Math.max(1, Math.round(ratio));
    rule(picture, image, lines, Math.max(1, 0.004 * radius * scale), thick);
    outline(picture, image, 0.02 * radius * scale + STEEP * thick, thick);
    put(image, box);
  };

  const SIDES = ["the front", "the front right", "the right", "the back right", "the back",
    "the back left", "the left", "the front left"];
  const announce = () => {
    const turn = ((view.turn % 360) + 360) % 360;
    const side = SIDES[Math.round(turn / 45) % 8];
    let text = "Seen from " + side;
    if (view.tilt > 80) text = "Seen from above";
    else if (view.tilt < -80) text = "Seen from below";
    else if (view.tilt > 10) text += ", a little from above";
    else if (view.tilt < -10) text += ", a little from below";
    seen.textContent = text;
    for (const button of buttons) {
      const isHere = Math.abs(turn - ((Number(button.dataset.turn) + 360) % 360)) < 0.5 &&
        Math.abs(view.tilt - Number(button.dataset.tilt)) < 0.5;
      button.setAttribute("aria-pressed", String(isHere));
    }
  };

  const show = (isOnItsWay = false) => {
    cancelAnimationFrame(pending);
    clearTimeout(settling);
    pending = requestAnimationFrame(() => draw(true));
    if (isOnItsWay) return;
    settling = setTimeout(() => {
      cancelAnimationFrame(pending);
      draw(false);
      announce();
    }, 140);
  };

  const change = (turn, tilt, zoom = 1) => {
    view.turn += turn;
    view.tilt = Math.max(-90, Math.min(90, view.tilt + tilt));
    view.zoom = Math.max(0.3, Math.min(6, view.zoom * zoom));
    show();
  };

  let going = 0; // the frame that a turn under way waits for
  const goTo = (turn, tilt) => {
    cancelAnimationFrame(going);
    const from = { ...view };
    const way = ((((turn - from.turn) % 360) + 540) % 360) - 180;
    const isStill = window.matchMedia("(prefers-reduced-motion: reduce)").matches;
    const start = performance.now();
    const move = (now) => {
      const share = isStill ? 1 : Math.min(1, Math.max(0, (now - start) / TURN_TIME));
      const eased = share * share * (3 - 2 * share);
      view.turn = from.turn + way * eased;
      view.tilt = from.tilt + (tilt - from.tilt) * eased;
      show(share < 1);
      going = share < 1 ? requestAnimationFrame(move) : 0;
    };
    move(start);
  };
  const halt = () => {
    if (going) show();
    cancelAnimationFrame(going);
    going = 0;
  };

  const held = new Map();
  const span = () => {
    const [one, two] = [...held.values()];
    return Math.hypot(one.x - two.x, one.y - two.y);
  };
  canvas.addEventListener("pointerdown", (event) => {
    halt();
    canvas.setPointerCapture(event.pointerId);
    held.set(event.pointerId, { x: event.clientX, y: event.clientY });
  });
  canvas.addEventListener("pointermove", (event) => {
    const last = held.get(event.pointerId);
    if (!last) return;
    const before = held.size === 2 ? span() : 0;
    held.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (held.size === 2) change(0, 0, before > 0 ? span() / before : 1);
    else change((last.x - event.clientX) * 0.5, (event.clientY - last.y) * 0.5);
  });
  for (const name of ["pointerup", "pointercancel"]) {
    canvas.addEventListener(name, (event) => held.delete(event.pointerId));
  }

  const KEYS = {
    ArrowLeft: () => change(STEP, 0), ArrowRight: () => change(-STEP, 0),
    ArrowUp: () => change(0, -STEP), ArrowDown: () => change(0, STEP),
    "+": () => change(0, 0, 1.2), "=": () => change(0, 0, 1.2), "-": () => change(0, 0, 1 / 1.2),
    Home: () => { view = { ...START }; show(); },
  };
  canvas.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || !KEYS[event.key]) return;
    event.preventDefault();
    halt();
    KEYS[event.key]();
  });
  for (const button of buttons) {
    button.addEventListener("click", () =>
      goTo(Number(button.dataset.turn), Number(button.dataset.tilt)));
  }
  document.getElementById("smaller").addEventListener("click", () => change(0, 0, 1 / 1.2));
  document.getElementById("larger").addEventListener("click", () => change(0, 0, 1.2));
  window.addEventListener("resize", () => draw(false));

  draw(false);
  announce();
})();
