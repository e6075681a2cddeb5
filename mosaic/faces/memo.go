package faces

import "sync"

// Memo keeps what was made for a key, so that it is made once while it is asked for: at most 2·Half of all
// that was ever made, those asked for last. It may be used by several goroutines at once.
type Memo[K comparable, V any] struct {
	Half       int
	mu         sync.Mutex
	young, old map[K]V
}

// Of is what was made for the key, or what is made now. While it is kept everybody is given the same.
func (m *Memo[K, V]) Of(k K, made func() V) V {
	if v, ok := m.kept(k, nil); ok {
		return v
	}
	v := made() // two may do so at once: the first that is done counts
	v, _ = m.kept(k, &v)
	return v
}

// kept is what is kept for the key, or else the new one, to be kept from now on.
func (m *Memo[K, V]) kept(k K, new *V) (v V, ok bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if v, ok = m.young[k]; ok {
		return v, true
	}
	if v, ok = m.old[k]; !ok && new != nil {
		v, ok = *new, true
	}
	if !ok {
		return v, false
	}
	if len(m.young) >= m.Half || m.young == nil {
		m.old, m.young = m.young, map[K]V{}
	}
	m.young[k] = v
	return v, true
}
