/**
 * What this tablet keeps: one database in the browser. A write has happened when its promise is
 * fulfilled, and then it survives a power cut.
 *
 * items      entries that the shop server has not acknowledged, by sequence; nothing leaves this
 *            store but by a whole acknowledgement or a person's reason
 * photos     bytes by [entry's key, hash]: apart from the items, which are read at every count
 * drafts     forms not yet recorded, by key
 * delivered  acknowledged entries, by key, for a fortnight; whole, names, phones and photos included,
 *            so that they can be told again to a shop server that was restored (ring.js)
 * jobs       the open jobs as told ahead, by key
 * about      this tablet: `who` is signed in, who was picked without the server (`claimed`), the shop's
 *            `people` by name, whether that is `changing`, `left` (the
 *            session that was last signed out here), `reached` (when the server
 *            last answered), `silent` (since when it has not answered, while it does not),
 *            `epoch` (of the server, as last seen), `last` (the newest entry in its logbook that it
 *            acknowledged here: {key, place}), `clock_offset` (server minus tablet in ms, measured
 *            when it last did), `jobs_at` (when it was last asked for the open jobs and told them),
 *            `told` (what the server was last told of this tablet), `revoked` (the owner's word, as
 *            a sentence; empty: not revoked)
 */
"use strict";

// Without these (an old browser, a page over plain HTTP on a network) forms post as ever.
window.shopac.able =
  isSecureContext && "indexedDB" in window && "locks" in navigator && "BroadcastChannel" in window;
if (!window.shopac.able) document.documentElement.dataset.posts = "";

(() => {
  if (!window.shopac.able) return;
  const DATABASE = "shopac";
  const VERSION = 1; // a later one may only add

  /** @type {Promise<IDBDatabase> | null} */
  let opening = null;
  /** @type {IDBDatabase | null} */
  let connected = null;

  /** @param {IDBDatabase} database */
  function make(database) {
    const items = database.createObjectStore("items", { keyPath: "sequence", autoIncrement: true });
    items.createIndex("key", "key", { unique: true });
    items.createIndex("place", "place");
    database.createObjectStore("photos");
    database.createObjectStore("drafts", { keyPath: "key" }).createIndex("place", "place");
    database.createObjectStore("delivered", { keyPath: "key" }).createIndex("at", "at");
    database.createObjectStore("jobs", { keyPath: "key" });
    database.createObjectStore("about");
  }

  /**
   * @param {number} [version] 0: whatever there is. A newer page may have added to it while
   *   this one is open or kept, and all that this one knows is still in it.
   * @returns {Promise<IDBDatabase>}
   */
  function open(version = VERSION) {
    if (opening && version) return opening;
    opening = new Promise((resolve, reject) => {
      const request = indexedDB.open(DATABASE, version || undefined);
      request.onupgradeneeded = () => make(request.result);
      request.onerror = () => {
        if (request.error?.name === "VersionError") resolve(open(0));
        else reject(request.error);
      };
      request.onsuccess = () => {
        const database = request.result;
        const forget = () => {
          connected = opening = null;
        };
        database.onclose = forget;
        database.onversionchange = () => {
          database.close();
          forget();
        };
        connected = database;
        resolve(database);
      };
    });
    opening.catch(() => {
      opening = null;
    });
    return opening;
  }

  /**
   * The answer to one request inside a transaction.
   * @template T
   * @param {IDBRequest<T>} request
   * @returns {Promise<T>}
   */
  function value(request) {
    return new Promise((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  }

  /**
   * Do `work` in one transaction: all of it is kept or nothing. `work` may await requests of this
   * transaction only.
   * @template T
   * @param {string[]} stores
   * @param {IDBTransactionMode} mode
   * @param {(store: (name: string) => IDBObjectStore) => Promise<T> | T} work
   * @returns {Promise<T>}
   */
  async function transact(stores, mode, work) {
    const transaction = (await open()).transaction(stores, mode, { durability: "strict" });
    const done = new Promise((resolve, reject) => {
      transaction.oncomplete = resolve;
      transaction.onabort = () => reject(transaction.error || new Error("not kept"));
    });
    done.catch(() => {}); // told by the throw below
    try {
      const result = await work((name) => transaction.objectStore(name));
      await done;
      return result;
    } catch (error) {
      if (!transaction.error) {
        try {
          transaction.abort();
        } catch {
          // it had ended
        }
      }
      throw transaction.error || error;
    }
  }

  /**
   * Write blindly on the open connection, for a page that is going away: a write that reads first
   * would never be finished.
   * @param {string} store
   * @param {any} record
   * @param {string} [key]
   */
  function putNow(store, record, key) {
    try {
      const transaction = connected?.transaction([store], "readwrite", { durability: "strict" });
      transaction?.objectStore(store).put(record, key);
      transaction?.commit();
    } catch {
      // no room or no connection: what was tapped says so itself
    }
  }

  /** @type {Map<string, Promise<any>>} */
  const loading = new Map();

  /**
   * A script that few pages need, kept on the tablet with them all the same: ring, renew, saved, shrink.
   * @param {string} name
   */
  window.shopac.load = (name) => {
    const found = loading.get(name) || new Promise((resolve, reject) => {
      const made = document.createElement("script");
      Object.assign(made, { src: document.documentElement.dataset[`${name}Src`], onload: resolve, onerror: reject });
      document.head.append(made);
    });
    loading.set(name, found);
    found.catch(() => loading.delete(name));
    return found.then(() => window.shopac[name]);
  };

  window.shopac.store = {
    open,
    value,
    putNow,
    read: (stores, work) => transact(stores, "readonly", work),
    write: (stores, work) => transact(stores, "readwrite", work),
    get: (store, key) => transact([store], "readonly", (at) => value(at(store).get(key))),
    all: (store) => transact([store], "readonly", (at) => value(at(store).getAll())),
    put: (store, record, key) =>
      transact([store], "readwrite", (at) => value(at(store).put(record, key))),
    photosOf: (key) => IDBKeyRange.bound([key], [key, []]),
  };
})();
