module scullion

go 1.25
