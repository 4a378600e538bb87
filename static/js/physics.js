/**
 * Numbers worked out from readings, in SI, as diagnostics/evidence/worked_out.py and the physics
 * behind it have them; each function has the name it has there. tests/browser/test_worked_out.py
 * holds the two to each other. Factors and limits come from the page, the saturation tables from
 * their files.
 *
 * @typedef {{[column: string]: any}} Table one refrigerant's, as the file has it
 * @typedef {{system: any, air: number, factors: any, table: Table | null}} Around
 * @typedef {(read: number[], around: Around) => number[]} How one number, the two ends of a band, or
 *   none; throws NotHere where nothing can be worked out
 */
"use strict";

window.shopac = window.shopac || {};

(() => {
  class NotHere extends Error {}

  /** @param {number} value @param {number} low @param {number} high */
  function within(value, low, high) {
    if (!(value >= low && value <= high)) throw new NotHere();
    return value;
  }

  // Saturation.

  /** @param {Around} around @returns {Table} */
  function tableOf({ table }) {
    if (!table) throw new NotHere();
    return table;
  }

  /** A column's value at a temperature, by the rule that stands in the table.
   * @param {Table} table @param {string} column @param {number} kelvin */
  function at(table, column, kelvin) {
    const [values, slopes] = table[column];
    const steps = (Math.cbrt(1 - kelvin / table.critical_temperature) - table.first) / table.step;
    const index = Math.min(Math.max(Math.trunc(steps), 0), values.length - 2);
    const t = steps - index;
    const s = 1 - t;
    return (
      (1 + 2 * t) * s * s * values[index] +
      t * s * s * slopes[index] +
      t * t * (3 - 2 * t) * values[index + 1] -
      t * t * s * slopes[index + 1]
    );
  }

  /** @param {Table} table @param {number} kelvin absolute pressure in Pa */
  function saturationPressure(table, kelvin) {
    within(kelvin, table.lowest_temperature, table.highest_temperature);
    return Math.exp(at(table, "ln_pressure", kelvin));
  }

  /** Temperature in K, by halving. @param {Table} table @param {number} absolute in Pa */
  function saturationTemperature(table, absolute) {
    let [low, high] = [table.lowest_temperature, table.highest_temperature];
    within(absolute, saturationPressure(table, low), saturationPressure(table, high));
    for (let step = 0; step < 60; step += 1) {
      const middle = (low + high) / 2;
      if (saturationPressure(table, middle) < absolute) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }

  /** Pa per K (Clausius and Clapeyron). @param {Table} table @param {number} kelvin */
  function pressureSlope(table, kelvin) {
    const volume = 1 / at(table, "vapor_density", kelvin) - 1 / at(table, "liquid_density", kelvin);
    const heat = at(table, "vapor_enthalpy", kelvin) - at(table, "liquid_enthalpy", kelvin);
    return heat / kelvin / volume;
  }

  /** @param {number} gauge @param {Around} around */
  const absoluteOf = (gauge, { air }) => within(gauge + air, 0, Infinity);

  /** @type {How} */
  const boils_at = ([gauge], around) => [
    saturationTemperature(tableOf(around), absoluteOf(gauge, around)),
  ];

  /** What the low side's gauge may be off. @param {Around} around */
  const lowSideGauge = ({ factors, system }) =>
    system.refrigerant === "R-744" ? factors.r744_gauge : factors.low_side_gauge;

  /** @type {How} */
  function rests_at([kelvin], around) {
    const { thermometer, coverage } = around.factors;
    const gauge = lowSideGauge(around);
    const table = tableOf(around);
    const expected = saturationPressure(table, kelvin) - around.air;
    const soak = pressureSlope(table, kelvin) * (thermometer / Math.sqrt(3));
    const half = coverage * Math.hypot(gauge / Math.sqrt(3), soak);
    return [expected - half, expected + half];
  }

  /** @type {How} */
  function superheat([gauge, kelvin], around) {
    const { thermometer, beyond_error: beyond } = around.factors;
    const needle = lowSideGauge(around);
    const boils = boils_at([gauge], around)[0];
    const off = Math.hypot(thermometer, needle / pressureSlope(tableOf(around), boils)) / Math.sqrt(3);
    if (kelvin - boils < -beyond * off) throw new NotHere(); // it cannot be
    return [kelvin - boils];
  }

  /** @type {How} */
  const subcooling = ([gauge, kelvin], around) => [boils_at([gauge], around)[0] - kelvin];

  /** @type {How} */
  function ratio(read, around) {
    const [high, low] = read.map((gauge) => absoluteOf(gauge, around));
    if (!low) throw new NotHere();
    return [high / low];
  }

  // Coils.

  /** R(T) / R(20 °C) of copper. @param {number} kelvin @param {Around} around */
  function copper(kelvin, { factors }) {
    within(kelvin, ...factors.copper_range);
    return 1 + factors.copper_per_kelvin * (kelvin - factors.kelvin_20);
  }

  /** @type {How} */
  const at_20 = ([ohm, kelvin], around) => [within(ohm, 0, Infinity) / copper(kelvin, around)];

  /** @type {How} */
  function ohm([volt, ampere]) {
    if (!ampere) throw new NotHere();
    return [Math.abs(volt) / Math.abs(ampere)];
  }

  /** @type {How} */
  const ohm_at_20 = ([volt, ampere, kelvin], around) =>
    at_20([ohm([volt, ampere], around)[0], kelvin], around);

  /** Lowest and highest figure at 20 °C. @param {Around} around @returns {number[] | null} */
  function coilFigure({ system, factors }) {
    if (system.coil_ohm) {
      const share = factors.coil_tolerance;
      return [system.coil_ohm * (1 - share), system.coil_ohm * (1 + share)];
    }
    return system.voltage === "24" ? null : factors.coil_12;
  }

  /** @type {How} */
  function draws([volt, warm], around) {
    const figure = coilFigure(around);
    if (!figure) return [];
    const [coldest, hottest] = warm === undefined ? around.factors.coil_between : [warm, warm];
    const [low, high] = figure;
    return [
      Math.abs(volt) / (high * copper(hottest, around)),
      Math.abs(volt) / (low * copper(coldest, around)),
    ];
  }

  /** Whether the resistance of a stretch follows from a drop: diagnostics/evidence/drop_told.py.
   * @param {number} volt @param {number} ampere @param {Around} around */
  function tellsResistance(volt, ampere, around) {
    const { no_current, working, coil_12, far, all_lost } = around.factors;
    if (around.system.voltage === "24" || ampere < no_current) return false;
    const [share, volts] = working;
    const most = (coilFigure(around) || coil_12)[1];
    return ampere >= (share * volts) / most ? volt < all_lost : volt >= far;
  }

  /** Of a stretch that loses volts, where something is made of that drop. @type {How} */
  function drop_ohm([volt, ampere], around) {
    if (!tellsResistance(Math.abs(volt), Math.abs(ampere), around)) throw new NotHere();
    return ohm([volt, ampere], around);
  }

  window.shopac.NotHere = NotHere;
  /** @type {Record<string, How>} */
  window.shopac.physics = {
    same: ([si]) => [si],
    boils_at,
    rests_at,
    superheat,
    subcooling,
    ratio,
    at_20,
    ohm,
    ohm_at_20,
    drop_ohm,
    lost: ([there, here]) => [Math.abs(there) - Math.abs(here)],
    draws,
    smallest: (read) => [Math.min(...read)],
    largest: (read) => [Math.max(...read)],
    wobble: (read) => [Math.max(...read) - Math.min(...read)],
  };
})();
