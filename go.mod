module blockbell

go 1.26
