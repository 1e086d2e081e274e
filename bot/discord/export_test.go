package discord

import "crypto/x509"

// Trust makes a configuration trust a test's certificate.
func (c *Config) Trust(roots *x509.CertPool) { c.roots = roots }
