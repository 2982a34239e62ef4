// <floor-heating-estimate service="https://..." lang="de" prices="prices.json">: asks a Tepidarium service for an estimate while
// people type. Attributes: service (its address), lang (en, de or fr, with a region for its formats, such as de-AT; otherwise
// the page's), prices (address of a price list).

const LANGUAGES = ["en", "de", "fr"]; // texts/en.json and so on, beside this script
const NUMBERS = { floor_area: 80, width: 5, depth: 4, notch_width: 2, notch_depth: 1.5, room_count: 5, outside_design_temperature: -12 };
const FIELDS = { area: ["floor_area", "room_count"], rectangle: ["width", "depth"], lshape: ["width", "depth", "notch_width", "notch_depth"] };
const WORDS = { building_standard: ["new", "renovated", "unrenovated"], covering: ["ceramic", "natural_stone", "resilient", "laminate", "timber", "carpet"] };
const PIPES = [14, 16, 17, 20];
const RANGES = { pipe_length: " m", circuit_count: "", manifold_count: "", heat_output: " kW", supply_temperature: " °C" };
const LARGEST_SKETCH = 50; // m²
const STYLE = `:host{display:block}*{box-sizing:border-box}form{display:grid;grid-template-columns:repeat(auto-fit,minmax(13rem,1fr));gap:.75rem 1rem}
fieldset{grid-column:1/-1;border:1px solid #767676;border-radius:.3rem;display:flex;flex-wrap:wrap;gap:.3rem 1.2rem}fieldset label{display:flex;gap:.4rem;align-items:center;min-height:2rem}
label>span{display:block}input:not([type=radio]),select,button{font:inherit;width:100%;min-height:2.6rem;padding:.3rem .6rem;border:1px solid #767676;border-radius:.3rem;background:Field;color:FieldText}
.error,[role=alert]{color:light-dark(#a40000,#ffb4ab)}:focus-visible{outline:3px solid light-dark(#14507a,#9ecbf0);outline-offset:2px}input[aria-invalid=true]{border:2px solid light-dark(#a40000,#ffb4ab)}.error{display:block;min-height:0}
button{width:auto;padding:.3rem 1.2rem;background:#14507a;color:#fff;border-color:#14507a;cursor:pointer}table{border-collapse:collapse;width:100%}th,td{padding:.35rem .5rem;border-bottom:1px solid #ccc;text-align:right;font-variant-numeric:tabular-nums}
th:first-child{text-align:left;font-weight:400;overflow-wrap:anywhere;hyphens:auto}thead th:first-child{font-weight:700}td{white-space:nowrap}.likely{font-weight:700}@media(max-width:30rem){th,td{padding:.35rem .2rem}}.old{color:light-dark(#595959,#b5b5b5)}svg{max-width:26rem;width:100%;height:auto;display:block}
details{margin:1rem 0}summary{cursor:pointer;padding:.4rem 0}.actions{display:flex;gap:.6rem;margin:.6rem 0}[hidden]{display:none!important}
@media print{button{display:none}details>:not(summary){display:block}fieldset,input,select{border:0!important}section,svg,tr{break-inside:avoid}}`;

const escaped = (text) => String(text).replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

class FloorHeatingEstimate extends HTMLElement {
  async connectedCallback() {
    if (this.shadowRoot) return;
    const root = this.attachShadow({ mode: "open" });
    const asked = this.lang || document.documentElement.lang || navigator.language || "en";
    this.locale = Intl.NumberFormat.supportedLocalesOf([asked])[0] ?? "en";
    const language = LANGUAGES.find((one) => this.locale.startsWith(one)) ?? LANGUAGES[0];
    this.words = await (await fetch(new URL(`texts/${language}.json`, import.meta.url))).json();
    root.innerHTML = `<div lang="${language}">${this.page()}</div>`;
    this.form = this.part("form");
    this.form.addEventListener("input", () => this.later());
    this.form.addEventListener("submit", (event) => { event.preventDefault(); this.ask(); });
    this.part("#retry").addEventListener("click", () => this.ask());
    this.part("#print").addEventListener("click", () => print());
    this.again = () => this.ask();
    this.unfold = () => { this.part("details").open = true; };
    addEventListener("online", this.again);
    addEventListener("beforeprint", this.unfold);
    this.reveal();
    this.start();
  }

  disconnectedCallback() {
    removeEventListener("online", this.again);
    removeEventListener("beforeprint", this.unfold);
    clearTimeout(this.timer);
    this.asking?.abort();
  }

  part(selector) { return this.shadowRoot.querySelector(selector); }

  async start() {
    const list = this.getAttribute("prices");
    if (list) this.prices = await fetch(list).then((answer) => (answer.ok ? answer.json() : null)).catch(() => null);
    this.ask();
  }

  page() {
    const t = this.words, format = new Intl.NumberFormat(this.locale);
    const choice = (name, options) => `<label><span>${t[name]}</span><select name="${name}">${options}</select></label>`;
    return `<style>${STYLE}</style><form novalidate><fieldset><legend>${t.shape}</legend>${Object.keys(FIELDS).map((shape, number) =>
      `<label><input type="radio" name="shape" value="${shape}"${number ? "" : " checked"}>${t[shape]}</label>`).join("")}</fieldset>${
      Object.entries(NUMBERS).map(([name, value]) => `<label data-field="${name}"><span>${t[name]}</span><input name="${name}" inputmode="${value < 0 ? "text" : "decimal"}" autocomplete="off" value="${format.format(value)}" aria-describedby="${name}-error"><span class="error" id="${name}-error"></span></label>`).join("")}${
      Object.entries(WORDS).map(([name, words]) => choice(name, words.map((word) => `<option value="${word}">${t[word]}</option>`).join(""))).join("")}${
      choice("pipe", PIPES.map((size) => `<option value="${size}"${size === 16 ? " selected" : ""}>${size} × 2 mm</option>`).join(""))}</form>
      <p role="status" id="status"></p><p role="alert" id="alert"></p><p class="actions"><button type="button" id="retry" hidden>${t.retry}</button></p>
      <section id="result" aria-labelledby="heading" hidden><h2 id="heading">${t.result}</h2><div id="ranges"></div><p>${t.basis}</p><ul id="notes"></ul>
      <figure id="sketch"></figure><details><summary>${t.materials}</summary><div id="materials"></div></details>
      <h3>${t.cautions}</h3><ul id="cautions"></ul><p class="actions"><button type="button" id="print">${t.print}</button></p></section>`;
  }

  shown() { return [...FIELDS[new FormData(this.form).get("shape")], "outside_design_temperature"]; }

  reveal() {
    const shown = this.shown();
    for (const name of Object.keys(NUMBERS)) this.part(`[data-field=${name}]`).hidden = !shown.includes(name);
  }

  later() {
    this.reveal();
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.ask(), 250);
  }

  // The text of a number, with either sign for its decimals. In a large number that sign may stand between thousands.
  plain(typed, large) {
    const text = typed.replace(/\s/g, "").replace("−", "-"), thousands = this.number(0.5, 1).includes(",") ? "." : ",";
    const grouped = large && /^[1-9]\d{0,2}([.,]\d{3})+([.,]\d{1,2})?$/.test(text) && text.includes(thousands);
    return (grouped ? text.replaceAll(thousands, "") : text).replace(",", ".");
  }

  read() {
    const data = new FormData(this.form), shape = data.get("shape"), values = {}, shown = this.shown();
    let sound = true;
    for (const name of Object.keys(NUMBERS)) {
      const text = this.plain(data.get(name), name === "floor_area");
      values[name] = Number(text);
      const wrong = shown.includes(name) && (text === "" || !Number.isFinite(values[name]));
      this.mark(name, wrong ? this.words.number : "");
      sound &&= !wrong;
    }
    const { width: w, depth: d, notch_width: a, notch_depth: b } = values;
    if (shape === "lshape" && sound) {
      for (const [name, most] of [["notch_width", w], ["notch_depth", d]]) {
        if (!(values[name] > 0 && values[name] < most)) { this.mark(name, `0 – ${this.number(most, 2)}`); sound = false; }
      }
    }
    if (!sound) return null;
    const size = Number(data.get("pipe")) / 1000;
    const request = { outside_design_temperature: values.outside_design_temperature, building_standard: data.get("building_standard"),
      covering: data.get("covering"), pipe: { outside_diameter: size, wall_thickness: 0.002 } };
    if (shape === "area") Object.assign(request, { floor_area: values.floor_area, room_count: values.room_count });
    else request.outline = shape === "rectangle" ? [[0, 0], [w, 0], [w, d], [0, d]] : [[0, 0], [w, 0], [w, d - b], [w - a, d - b], [w - a, d], [0, d]];
    if (this.prices) request.ordering = { price_list: this.prices };
    return request;
  }

  mark(name, message) {
    const input = this.part(`[name=${name}]`);
    input.setAttribute("aria-invalid", String(Boolean(message)));
    this.part(`#${name}-error`).textContent = message;
  }

  tell(status, alert = "", retry = false) {
    this.part("#status").textContent = status;
    this.part("#alert").textContent = alert;
    this.part("#retry").hidden = !retry;
  }

  async call(path, options) {
    const base = (this.getAttribute("service") ?? "").replace(/\/$/, "");
    return fetch(base + path, { signal: this.asking.signal, ...options });
  }

  async ask() {
    clearTimeout(this.timer);
    this.asking?.abort();
    this.asking = new AbortController();
    const own = this.asking, request = this.read();
    this.part("#result").classList.add("old");
    if (!request) return this.tell("", this.words.check);
    this.tell(this.words.waiting);
    const query = new URLSearchParams(Object.entries(request).map(([name, value]) => [name, typeof value === "string" ? value : JSON.stringify(value)]));
    try {
      const answer = await this.call(`/v1/estimates?${query}`), found = await answer.json();
      if (own !== this.asking) return;
      if (answer.status === 422) return this.refused(found);
      if (!answer.ok) return this.tell("", this.words.failed, true);
      this.show(found);
      await this.sketch(request, own);
    } catch (error) {
      if (own === this.asking && error.name !== "AbortError") this.tell("", navigator.onLine ? this.words.failed : this.words.offline, true);
    }
  }

  refused(problem) {
    for (const { pointer, code, detail, limit } of problem.errors ?? []) {
      const field = pointer.split("/")[1], name = field === "outline" ? "width" : field;
      const sign = { too_small: "≥", too_large: "≤" }[code];
      if (name in NUMBERS) this.mark(name, sign ? `${sign} ${this.number(limit, 2)}` : detail);
    }
    this.tell("", this.words.check);
  }

  number(value, digits = 0) { return new Intl.NumberFormat(this.locale, { maximumFractionDigits: digits }).format(value); }

  money(value, currency) { return new Intl.NumberFormat(this.locale, { style: "currency", currency, maximumFractionDigits: 0 }).format(value); }

  show(found) {
    const t = this.words, head = `<thead><tr><th scope="col">${t.item}</th>${["low", "likely", "high"].map((level) => `<th scope="col">${t[level]}</th>`).join("")}</tr></thead>`;
    const row = (name, range, write) => `<tr><th scope="row">${escaped(name)}</th>${["low", "likely", "high"].map((level) => `<td class="${level}">${escaped(write(range[level]))}</td>`).join("")}</tr>`;
    const write = (name) => (value) => (name === "heat_output" ? this.number(value / 1000, 1) : this.number(value)) + RANGES[name];
    const rows = Object.keys(RANGES).map((name) => row(t[name], found[name], write(name)));
    if (found.total_cost) rows.push(row(t.total_cost, found.total_cost, (value) => this.money(value, found.currency)));
    this.part("#ranges").innerHTML = `<table>${head}<tbody>${rows.join("")}</tbody></table>`;
    const units = { m: " m", m2: " m²", m3: " m³", kg: " kg" };
    const kinds = Object.keys(t.items).sort((one, other) => other.length - one.length);
    this.part("#materials").innerHTML = `<table>${head}<tbody>${found.materials.filter((line) => line.status === "needed").map((line) => {
      const kind = kinds.find((each) => line.item.startsWith(each)), size = kind && line.item.slice(kind.length + 1).replaceAll("_", " ").replace("ports", t.ports).replace("mm", " mm");
      const fine = line.quantity.unit === "m3" ? 1 : 0;
      return row(kind ? t.items[kind] + (/\d/.test(size) ? `, ${size}` : "") : line.name, line.quantity, (value) => this.number(value, fine) + (units[line.quantity.unit] ?? ""));
    }).join("")}</tbody></table>`;
    const list = (entries) => entries.map((entry) => `<li>${escaped(t[entry.code] ?? entry.message)}</li>`).join("");
    this.part("#notes").innerHTML = list(found.findings);
    this.part("#cautions").innerHTML = list(found.cautions);
    const result = this.part("#result");
    result.hidden = false;
    result.classList.remove("old");
    this.tell(t.said.replace(/\{(\w+)\}/g, (_, level) => write("pipe_length")(found.pipe_length[level])));
  }

  async sketch(request, own) {
    const figure = this.part("#sketch"), corners = request.outline;
    figure.innerHTML = "";
    if (!corners) return;
    const area = Math.abs(corners.reduce((sum, [x, y], at) => sum + x * corners[(at + 1) % corners.length][1] - y * corners[(at + 1) % corners.length][0], 0)) / 2;
    let paths = [];
    if (area <= LARGEST_SKETCH) {
      const body = { outline: corners, entry: [corners[1][0] / 2, 0], pipe_spacing: 0.15, pattern: "counterflow", wall_clearance: 0.075, pipe: request.pipe, tail_length: 3, maximum_circuit_length: 100 };
      const answer = await this.call("/v1/routes", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });
      if (answer.ok) paths = (await answer.json()).circuits.map((circuit) => circuit.path);
      if (own !== this.asking) return;
    }
    const deep = Math.max(...corners.map(([, y]) => y)), wide = Math.max(...corners.map(([x]) => x)), at = (points) => points.map(([x, y]) => `${x.toFixed(3)},${(deep - y).toFixed(3)}`).join(" ");
    const colours = ["#b3261e", "#14507a", "#2e6b34", "#7a4a00", "#5b2a86", "#006a6a"];
    figure.innerHTML = `<svg role="img" aria-label="${this.words.sketch}" viewBox="-.1 -.1 ${wide + 0.2} ${deep + 0.2}"><polygon points="${at(corners)}" fill="#f4f4f4" stroke="#222" stroke-width=".06"/>${
      paths.map((path, number) => `<polyline points="${at(path)}" fill="none" stroke="${colours[number % colours.length]}" stroke-width=".025"/>`).join("")}</svg><figcaption>${paths.length ? this.words.sketch : this.words.no_sketch}</figcaption>`;
  }
}

customElements.define("floor-heating-estimate", FloorHeatingEstimate);
