package workbook

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"

	"github.com/jmoiron/sqlx"
)

// Block is bytes kept beside the Book under their own digest: an imported
// table, a photo. Book and Change hold only the Hash. A Block is given to the
// Apply whose change first refers to it and is on disk with it.
type Block struct {
	Hash  string // SHA-256 of Bytes, hex
	Kind  string // "table", "photo"
	Bytes []byte // as stored: already compressed where that helps
}

// NewBlock makes a Block of bytes, which it keeps and never changes.
func NewBlock(kind string, b []byte) Block {
	return Block{Hash: hashOf(b), Kind: kind, Bytes: b}
}

func hashOf(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// Block reads the bytes of a hash. Bytes that no longer match it are reported
// as damage, never returned.
func (f *File) Block(ctx context.Context, hash string) (b []byte, err error) {
	err = f.use(func(c *sqlx.Conn) error {
		err := c.GetContext(ctx, &b, "SELECT bytes FROM block WHERE hash = ?", hash)
		if errors.Is(err, sql.ErrNoRows) {
			return say(err, f.path, "workbook.no-block")
		}
		if err == nil && hashOf(b) != hash {
			return damaged(f.path, errors.New("block "+hash+" does not match its digest"))
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	return b, nil
}

// putBlocks writes blocks that are not there yet.
func putBlocks(ctx context.Context, c *sqlx.Conn, blocks []Block) error {
	for _, b := range blocks {
		_, err := c.ExecContext(ctx, "INSERT INTO block (hash, kind, bytes) VALUES (?, ?, ?) ON CONFLICT (hash) DO NOTHING",
			b.Hash, b.Kind, b.Bytes)
		if err != nil {
			return err
		}
	}
	return nil
}
